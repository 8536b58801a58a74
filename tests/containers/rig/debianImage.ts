import { copyFile, mkdir, mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onPath } from './engine.ts';
import { run } from './run.ts';
import { say, sayNowAndThen } from './say.ts';

/** Certificates this machine trusts; a network that reads along has its own among them. */
export const machineCertificates = '/etc/ssl/certs/ca-certificates.crt';

/** What an image of a program that only runs does not need. */
const leftOut = [
  './var/cache/apt/*',
  './var/lib/apt/lists/*',
  './usr/share/doc/*',
  './usr/share/man/*',
  './dev/*',
];

/** Why no Debian can be made here; null when it can. */
export function debianMissing(): string | null {
  if (process.getuid?.() !== 0) return 'only root may make a Debian with debootstrap';
  return onPath('debootstrap') ? null : 'debootstrap is not installed (Debian package debootstrap)';
}

/** Makes a small Debian from the archive this machine's own apt uses, and hands it to the engine under `name`. */
export async function makeDebianImage(
  name: string,
  environment: Readonly<Record<string, string>>,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-debian-'));
  const root = join(folder, 'root');
  try {
    const { address, suite, components } = await archive();
    say(`making a small Debian (${suite}) with debootstrap; about half a minute on a machine at rest`);
    const words = ['--variant=minbase', `--components=${components.join(',')}`, suite, root, address];
    const proxy = await aptProxy();
    await run('debootstrap', words, {
      onLine: sayNowAndThen('debootstrap'),
      environment: proxy === '' ? {} : { http_proxy: proxy, https_proxy: proxy },
    });
    await mkdir(join(root, 'etc/ssl/certs'), { recursive: true });
    if (await isThere(machineCertificates))
      await copyFile(machineCertificates, join(root, machineCertificates));
    // An image is whole or thrown away: nothing in it need be forced to the disk file by file.
    await writeFile(join(root, 'etc/dpkg/dpkg.cfg.d/quick'), 'force-unsafe-io\n');
    const excludes = leftOut.map((path) => `--exclude=${path}`);
    const tar = join(folder, 'root.tar');
    await run('tar', ['-C', root, ...excludes, '-cf', tar, '.']);
    await run('docker', ['import', tar, name], { environment });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Where apt gets this machine's own release from, read at run time. */
async function archive(): Promise<{ address: string; suite: string; components: string[] }> {
  const suite = /^VERSION_CODENAME=(\S+)$/m.exec(await run('cat', ['/etc/os-release']))?.[1];
  const format = '$(REPO_URI) $(CODENAME) $(COMPONENT)';
  const lines = (await run('apt-get', ['indextargets', '--format', format, 'Created-By: Packages'])).split(
    '\n',
  );
  const own = lines.map((line) => line.split(' ')).filter(([, codename]) => codename === suite);
  const address = own[0]?.[0];
  if (suite === undefined || address === undefined)
    throw new Error('apt names no archive of this release; run apt-get update first');
  const components = own.filter(([from]) => from === address).map(([, , component]) => component!);
  return { address, suite, components: [...new Set(components)] };
}

/** A proxy that apt was told of; empty without one. */
export async function aptProxy(): Promise<string> {
  const said = await run('apt-config', ['shell', 'PROXY', 'Acquire::http::Proxy']);
  return /PROXY='(.*)'/.exec(said)?.[1] ?? '';
}

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
