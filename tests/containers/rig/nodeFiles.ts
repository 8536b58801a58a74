import { copyFile, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { machineCertificates } from './debianImage.ts';
import { run } from './run.ts';

/** npm in the stand-in image; the official image of Node 24 brings 11 as well. */
export const npmVersion = '11';

/**
 * Lays out what makes a Debian a Node image under `folder`: the Node these tests run on, npm from the registry, and
 * this machine's way to the registry, so that `npm ci` works inside as it works outside. Passwords are not taken along.
 */
export async function layOutNode(folder: string): Promise<void> {
  const local = join(folder, 'usr/local');
  await mkdir(join(local, 'bin'), { recursive: true });
  await mkdir(join(local, 'etc'), { recursive: true });
  await copyFile(process.execPath, join(local, 'bin/node'));
  const quiet = ['--no-audit', '--no-fund', '--loglevel=error'];
  await run('npm', ['install', '--global', '--prefix', local, ...quiet, `npm@${npmVersion}`]);
  const settings: string[] = [];
  for (const name of ['registry', 'proxy', 'https-proxy', 'noproxy']) {
    const value = (await run('npm', ['config', 'get', name])).trim();
    if (value !== '' && value !== 'null' && value !== 'undefined') settings.push(`${name}=${value}`);
  }
  const certificates = (await run('npm', ['config', 'get', 'cafile'])).trim();
  if (certificates !== '' && certificates !== 'null') {
    await copyFile(certificates, join(local, 'etc/npm-certificates.crt'));
    settings.push('cafile=/usr/local/etc/npm-certificates.crt');
  } else settings.push(`cafile=${machineCertificates}`);
  await writeFile(join(local, 'etc/npmrc'), `${settings.join('\n')}\n`);
}
