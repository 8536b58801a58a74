import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { firstExisting } from './requirement.ts';

export interface Certificate {
  readonly cert: string;
  readonly key: string;
  readonly certificateFile: string;
}

const openssl = firstExisting(['/usr/bin/openssl', '/usr/local/bin/openssl', '/opt/homebrew/bin/openssl']);
export const hasOpenssl = openssl !== null;

/** A certificate for this machine that vouches for itself, good for a day. */
export async function makeCertificate(folder: string): Promise<Certificate> {
  const [certificateFile, keyFile] = [join(folder, 'certificate.pem'), join(folder, 'key.pem')];
  const request = [
    'req',
    '-x509',
    '-newkey',
    'ec',
    '-pkeyopt',
    'ec_paramgen_curve:prime256v1',
    '-nodes',
    '-days',
    '1',
  ];
  const names = ['-subj', '/CN=localhost', '-addext', 'subjectAltName=DNS:localhost,IP:127.0.0.1'];
  await promisify(execFile)(openssl!, [...request, ...names, '-keyout', keyFile, '-out', certificateFile]);
  const [cert, key] = await Promise.all([readFile(certificateFile, 'utf8'), readFile(keyFile, 'utf8')]);
  return { cert, key, certificateFile };
}

/** A certificate authority of a yard's own, as a village or a farm would make one. */
export interface PrivateAuthority {
  readonly caFile: string;
  /** A certificate with its key, vouched for by this authority: for a server on this machine or for a client. */
  issue(name: string, use: 'server' | 'client'): Promise<{ certificateFile: string; keyFile: string }>;
}

const ellipticKey = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes'];

/** Makes an authority that is good for a day; `name` tells it from others in the same folder. */
export async function makeAuthority(folder: string, name: string): Promise<PrivateAuthority> {
  const run = promisify(execFile);
  const [caFile, caKey] = [join(folder, `${name}.pem`), join(folder, `${name}.key`)];
  const subject = ['-subj', `/CN=${name}`, '-addext', 'keyUsage=critical,keyCertSign'];
  const made = ['req', '-x509', ...ellipticKey, '-days', '1', ...subject, '-keyout', caKey, '-out', caFile];
  await run(openssl!, made);
  return {
    caFile,
    async issue(holder, use) {
      const file = (ending: string) => join(folder, `${name}-${holder}.${ending}`);
      const names = use === 'server' ? 'subjectAltName=DNS:localhost,IP:127.0.0.1\n' : '';
      await writeFile(file('ext'), `${names}extendedKeyUsage=${use}Auth\n`);
      const request = ['-subj', `/CN=${holder}`, '-keyout', file('key'), '-out', file('csr')];
      await run(openssl!, ['req', ...ellipticKey, ...request]);
      const by = ['-CA', caFile, '-CAkey', caKey, '-CAcreateserial', '-days', '1', '-extfile', file('ext')];
      await run(openssl!, ['x509', '-req', '-in', file('csr'), ...by, '-out', file('pem')]);
      return { certificateFile: file('pem'), keyFile: file('key') };
    },
  };
}
