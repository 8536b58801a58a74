import { spawn } from 'node:child_process';
import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { firstExisting } from '../../helpers/requirement.ts';
import { withLock } from './lock.ts';
import { tryRun } from './run.ts';
import { say } from './say.ts';

/** Everything of an engine of our own: socket, process id, log and, kept from run to run, its images. */
export const engineFolder = join(tmpdir(), `tilth-containers-${process.getuid?.() ?? 0}`);
const socket = join(engineFolder, 'docker.sock');
const pidFile = join(engineFolder, 'dockerd.pid');
const usersFolder = join(engineFolder, 'users');
const startWithinMs = 60_000;

export interface Engine {
  /** What a client must have in its environment to reach it; empty for the machine's usual engine. */
  readonly environment: Readonly<Record<string, string>>;
  /** An engine of our own ends when nobody uses it any more. */
  release(): Promise<void>;
}

/** An engine, or in plain words why there is none. */
export type FoundEngine = { readonly engine: Engine } | { readonly missing: string };

/** The engine that runs on this machine or, where one is installed and may be started, one of our own. */
export async function findEngine(): Promise<FoundEngine> {
  if (!onPath('docker')) return { missing: 'no docker client found (Debian package docker.io)' };
  if (await answers({})) return { engine: { environment: {}, release: async () => {} } };
  const program = firstExisting(['/usr/sbin/dockerd', '/usr/bin/dockerd', '/usr/local/bin/dockerd']);
  if (program === null)
    return { missing: 'no container engine runs and none is installed (Debian package docker.io)' };
  if (process.getuid?.() !== 0) return { missing: 'no container engine runs and only root may start one' };
  return withLock(join(engineFolder, 'engine.lock'), () => useOwn(program));
}

/** Whether a program can be started by its name. */
export function onPath(program: string): boolean {
  return (process.env.PATH ?? '').split(':').some((folder) => existsSync(join(folder, program)));
}

const environment = { DOCKER_HOST: `unix://${socket}` };

async function useOwn(program: string): Promise<FoundEngine> {
  mkdirSync(usersFolder, { recursive: true });
  if (!(await answers(environment))) {
    const missing = await start(program);
    if (missing !== null) return { missing };
  }
  const mine = join(usersFolder, String(process.pid));
  writeFileSync(mine, '');
  const release = async () => {
    process.off('exit', leave);
    await withLock(join(engineFolder, 'engine.lock'), async () => leave());
    await sleepUntilGone();
  };
  const leave = () => {
    rmSync(mine, { force: true });
    if (usersAlive() === 0) end();
  };
  process.once('exit', leave);
  return { engine: { environment, release } };
}

/** Starts an engine of our own beside nothing else: its own root, socket, process id. Null when it answers. */
async function start(program: string): Promise<string | null> {
  say(`starting ${program} with its data in ${engineFolder}`);
  rmSync(pidFile, { force: true });
  const log = openSync(join(engineFolder, 'dockerd.log'), 'w');
  const words = [
    ...['--host', environment.DOCKER_HOST, '--pidfile', pidFile],
    ...['--data-root', join(engineFolder, 'data'), '--exec-root', join(engineFolder, 'exec')],
  ];
  const server = spawn(program, words, { detached: true, stdio: ['ignore', log, log] });
  closeSync(log);
  server.unref();
  const giveUpAt = performance.now() + startWithinMs;
  while (!(await answers(environment))) {
    if (server.exitCode === null && performance.now() < giveUpAt) {
      await sleep(200);
      continue;
    }
    server.kill();
    const said = readFileSync(join(engineFolder, 'dockerd.log'), 'utf8').trimEnd().split('\n').slice(-3);
    return `${program} could not be started: ${said.join(' / ')}`;
  }
  return null;
}

function usersAlive(): number {
  return readdirSync(usersFolder).filter((pid) => {
    if (existsSync(join('/proc', pid))) return true;
    rmSync(join(usersFolder, pid), { force: true });
    return false;
  }).length;
}

/** A process id may have been handed on since: only what was started with our socket is ended. */
function end(): void {
  if (!existsSync(pidFile)) return;
  const pid = readFileSync(pidFile, 'utf8').trim();
  const command = join('/proc', pid, 'cmdline');
  if (existsSync(command) && readFileSync(command, 'utf8').includes(socket))
    process.kill(Number(pid), 'SIGTERM');
}

async function sleepUntilGone(): Promise<void> {
  const giveUpAt = performance.now() + 15_000;
  while (usersAlive() === 0 && existsSync(pidFile) && performance.now() < giveUpAt) await sleep(100);
}

async function answers(environment: Readonly<Record<string, string>>): Promise<boolean> {
  return (await tryRun('docker', ['version', '--format', '{{.Server.Version}}'], { environment })).code === 0;
}
