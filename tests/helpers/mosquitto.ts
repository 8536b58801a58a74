import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { writeFile } from 'node:fs/promises';
import { connect, createServer } from 'node:net';
import { join } from 'node:path';
import { eventually } from './eventually.ts';
import { firstExisting } from './requirement.ts';

export const mosquittoProgram = firstExisting(['/usr/sbin/mosquitto', '/usr/local/sbin/mosquitto']);

/** A port nobody listens on just now. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  await new Promise((resolve) => server.close(resolve));
  return port;
}

export interface MosquittoOptions {
  /** Lines of its configuration beside the usual ones; `allow_anonymous true` when they say nothing of sign-in. */
  readonly lines?: readonly string[];
  readonly port?: number;
  /** Messages kept for a session that is away; 0, the usual here: as many as there is memory for. */
  readonly mostQueued?: number;
}

/** A real broker on loopback that keeps sessions, with the limits a yard should set (firmware-notes). */
export async function startMosquitto(folder: string, options: MosquittoOptions = {}) {
  const port = options.port ?? (await freePort());
  const file = join(folder, 'mosquitto.conf');
  const more = options.lines ?? [];
  const mayEnter = more.some((line) => /^(password_file|require_certificate)/.test(line));
  const lines = [
    `listener ${port} 127.0.0.1`,
    ...(mayEnter ? ['allow_anonymous false'] : ['allow_anonymous true']),
    'user root',
    ...(options.mostQueued === undefined ? ['max_inflight_messages 1000'] : ['max_inflight_messages 20']),
    `max_queued_messages ${options.mostQueued ?? 0}`,
    ...more,
  ];
  await writeFile(file, `${lines.join('\n')}\n`);
  const broker = spawn(mosquittoProgram!, ['-c', file], { stdio: 'ignore' });
  await eventually('mosquitto listens', () => {
    if (broker.exitCode !== null) throw new Error(`mosquitto ended with ${broker.exitCode}: see ${file}`);
    return answers(port);
  });
  return {
    port,
    pid: broker.pid!,
    url: `mqtt://127.0.0.1:${port}`,
    async stop(signal: 'SIGTERM' | 'SIGKILL' = 'SIGTERM') {
      if (broker.exitCode !== null || broker.signalCode !== null) return;
      const gone = once(broker, 'exit');
      broker.kill(signal);
      await gone;
    },
  };
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.once('connect', () => resolve(true)).once('error', () => resolve(false));
    socket.once('connect', () => socket.destroy());
  });
}
