import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
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
