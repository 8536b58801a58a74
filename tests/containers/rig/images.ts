import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { aptProxy, debianMissing, makeDebianImage } from './debianImage.ts';
import { type Engine, engineFolder } from './engine.ts';
import { withLock } from './lock.ts';
import { layOutNode, npmVersion } from './nodeFiles.ts';
import { run, tryRun } from './run.ts';
import { say, sayNowAndThen } from './say.ts';

const recipes = join(import.meta.dirname, '../images');

/** Images a yard's containers are made of, and the variable of docker-compose.yml that names another one. */
const kinds = {
  node: 'YARD_BASE_IMAGE',
  mosquitto: 'MOSQUITTO_IMAGE',
  influxdb: 'INFLUXDB_IMAGE',
  postgres: 'POSTGRES_IMAGE',
} as const;

export type ImageKind = keyof typeof kinds;
export const imageKinds = Object.keys(kinds) as ImageKind[];

/** The environment of compose: each image under the variable that names it. */
export type ImageNames = Readonly<Record<(typeof kinds)[ImageKind], string>>;

/** Why the images cannot be had here; null when they can. Those named in the environment are taken as they are. */
export function imagesMissing(): string | null {
  return imageKinds.every((kind) => process.env[kinds[kind]]) ? null : debianMissing();
}

/** Finds or makes every image, each once on this machine: those of Debian's packages stand in for the official ones. */
export async function ensureImages(engine: Engine): Promise<ImageNames> {
  return withLock(join(engineFolder, 'images.lock'), async () => {
    const names: Record<string, string> = {};
    for (const kind of imageKinds)
      names[kinds[kind]] = process.env[kinds[kind]] || (await ensure(kind, engine));
    return names as ImageNames;
  });
}

async function ensure(kind: ImageKind, engine: Engine): Promise<string> {
  const name = standInName(kind);
  if (await isThere(name, engine)) return name;
  const debian = standInName('debian');
  if (!(await isThere(debian, engine))) await makeDebianImage(debian, engine.environment);
  const context = await mkdtemp(join(tmpdir(), `tilth-${kind}-`));
  try {
    say(`making the stand-in image ${name}`);
    await cp(recipes, context, { recursive: true });
    if (kind === 'node') await layOutNode(context);
    const proxy = await aptProxy();
    const proxies = proxy === '' ? [] : ['--build-arg', `http_proxy=${proxy}`];
    const words = ['--build-arg', `DEBIAN_IMAGE=${debian}`, ...proxies, '-t', name];
    await run('docker', ['build', '-f', join(context, `${kind}.Dockerfile`), ...words, context], {
      environment: engine.environment,
      onLine: sayNowAndThen(kind),
    });
  } finally {
    await rm(context, { recursive: true, force: true });
  }
  return name;
}

/** The name tells what it was made from: a changed recipe is a new image, an unchanged one is kept. */
function standInName(kind: ImageKind | 'debian'): string {
  const hash = createHash('sha256');
  const files = {
    debian: ['../rig/debianImage.ts'],
    node: ['node.Dockerfile', '../rig/nodeFiles.ts'],
    mosquitto: ['mosquitto.Dockerfile'],
    influxdb: ['influxdb.Dockerfile'],
    postgres: ['postgres.Dockerfile', 'postgresEntry.sh'],
  }[kind];
  for (const file of files) hash.update(readFileSync(join(recipes, file)));
  if (kind === 'node') hash.update(`${process.version} ${npmVersion}`);
  if (kind !== 'debian') hash.update(standInName('debian'));
  return `tilth-stand-in/${kind}:${hash.digest('hex').slice(0, 12)}`;
}

async function isThere(name: string, engine: Engine): Promise<boolean> {
  return (await tryRun('docker', ['image', 'inspect', name], { environment: engine.environment })).code === 0;
}

/** Removes every stand-in and every image of a yard that suites built, of any checkout on this engine. */
export async function removeImages({ environment }: Engine): Promise<void> {
  const all = await run('docker', ['images', '--format', '{{.Repository}}:{{.Tag}}'], { environment });
  const ours = all.split('\n').filter((name) => /^(tilth-stand-in\/|tilthwatch:test-)/.test(name));
  if (ours.length > 0) await run('docker', ['rmi', '--force', ...ours], { environment });
}
