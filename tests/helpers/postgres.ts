import { type ChildProcess, execFile, execFileSync, spawn } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { promisify } from 'node:util';
import pg from 'pg';

/** Where Debian's packages put the programs of each major version. */
const versionsFolder = '/usr/lib/postgresql';
const startWithinMs = 30_000;
const superuser = 'tilth';

export interface PostgresServer {
  /** Makes an empty database and gives the way to it. */
  createDatabase(): Promise<string>;
  readonly pid: number;
  /** Ends it as a failing machine would: at once, connections cut, nothing put in order. */
  crash(): Promise<void>;
  /** Starts it again after a crash, with its data, at the same address. */
  startAgain(): Promise<void>;
  stop(): Promise<void>;
}

/** Folder of the newest installed server's programs; null where PostgreSQL is not installed. */
export function findPostgres(): string | null {
  if (!existsSync(versionsFolder)) return null;
  const folders = readdirSync(versionsFolder)
    .sort((a, b) => Number(b) - Number(a))
    .map((version) => join(versionsFolder, version, 'bin'));
  return folders.find((folder) => existsSync(join(folder, 'initdb'))) ?? null;
}

export const postgresMissing = 'PostgreSQL is not installed (apt-get install postgresql)';

/** Starts a server of its own: temporary folder, free port on 127.0.0.1, nothing of the machine's own server touched. */
export async function startPostgres(): Promise<PostgresServer> {
  const programs = findPostgres();
  if (programs === null) throw new Error(postgresMissing);
  const owner = unprivileged();
  const folder = mkdtempSync(join(tmpdir(), 'records-postgres-'));
  if (owner.uid !== undefined) chownSync(folder, owner.uid, owner.gid ?? owner.uid);
  const data = join(folder, 'data');
  const initialise = ['-D', data, '-U', superuser, '--auth=trust', '--encoding=UTF8', '--no-sync'];
  await promisify(execFile)(join(programs, 'initdb'), initialise, { ...owner, cwd: folder });
  const port = await freePort();
  const start = () =>
    spawn(join(programs, 'postgres'), serverArguments(data, folder, port), {
      ...owner,
      cwd: folder,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
  let server = start();
  const address = `postgresql://${superuser}@127.0.0.1:${port}`;
  const stopNow = () => server.kill('SIGQUIT');
  process.once('exit', stopNow);
  const stop = async () => {
    process.off('exit', stopNow);
    await ended(server, 'SIGINT');
    await rm(folder, { recursive: true, force: true });
  };
  try {
    await answering(server, `${address}/postgres`);
  } catch (error) {
    await stop();
    throw error;
  }
  let databases = 0;
  return {
    async createDatabase() {
      const name = `records_${++databases}`;
      await withClient(`${address}/postgres`, (client) => client.query(`create database ${name}`));
      return `${address}/${name}`;
    },
    pid: server.pid!,
    crash: () => ended(server, 'SIGQUIT'),
    async startAgain() {
      server = start();
      await answering(server, `${address}/postgres`);
    },
    stop,
  };
}

/** PostgreSQL refuses to run as root; Debian's package brings a user for it. */
function unprivileged(): { uid?: number; gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const id = (flag: string) => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }));
  return { uid: id('-u'), gid: id('-g') };
}

/** Safe against nothing on purpose (no sync): the data lives as long as the test. */
const serverArguments = (data: string, folder: string, port: number): string[] => [
  ...['-D', data, '-p', String(port), '-k', folder],
  ...['-c', 'listen_addresses=127.0.0.1', '-c', 'fsync=off', '-c', 'full_page_writes=off'],
];

async function answering(server: ChildProcess, address: string): Promise<void> {
  let said = '';
  server.stderr?.on('data', (chunk: Buffer) => {
    said = (said + chunk.toString()).slice(-4000);
  });
  const giveUpAt = performance.now() + startWithinMs;
  for (;;) {
    try {
      return await withClient(address, async (client) => void (await client.query('select 1')));
    } catch (error) {
      if (server.exitCode !== null || performance.now() > giveUpAt)
        throw new Error(`PostgreSQL did not start: ${said}`, { cause: error });
      await sleep(50);
    }
  }
}

async function withClient<T>(address: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: address });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/**
 * SIGINT is PostgreSQL's fast shutdown: connections are cut, the server leaves in order. SIGQUIT is its immediate one: it
 * leaves as it stands, and recovers at the next start.
 */
async function ended(server: ChildProcess, signal: 'SIGINT' | 'SIGQUIT'): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return;
  const left = new Promise((resolve) => server.once('exit', resolve));
  server.kill(signal);
  await left;
}

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const address = probe.address();
  await new Promise((resolve) => probe.close(resolve));
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}
