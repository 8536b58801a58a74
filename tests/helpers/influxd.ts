import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type InfluxSettings, influxSettingsSchema } from '../../services/series/influx/settings.ts';
import { eventually } from './eventually.ts';
import { freePort } from './mosquitto.ts';
import { firstExisting } from './requirement.ts';

export const influxdProgram = firstExisting([
  '/usr/bin/influxd',
  '/usr/sbin/influxd',
  '/usr/local/bin/influxd',
]);

export interface InfluxServer {
  readonly port: number;
  readonly url: string;
  readonly pid: number;
  /** Runs a statement of InfluxQL, as an administrator would. */
  execute(statement: string): Promise<void>;
  stop(): Promise<void>;
}

/** A real InfluxDB 1.x on loopback with its data in `folder`; started again on the same folder and port it has its data still. */
export async function startInfluxd(folder: string, usedPort?: number): Promise<InfluxServer> {
  const port = usedPort ?? (await freePort());
  const data = join(folder, 'influx');
  await mkdir(data, { recursive: true });
  const file = join(data, 'influxd.conf');
  await writeFile(file, configuration(data, port, await freePort()));
  const server = spawn(influxdProgram!, ['-config', file], { stdio: 'ignore' });
  const url = `http://127.0.0.1:${port}`;
  await eventually('influxd answers', () => answers(url), 30_000);
  return {
    port,
    url,
    pid: server.pid!,
    execute: (statement) => influxStatement(url, statement),
    async stop() {
      if (server.exitCode !== null || server.signalCode !== null) return;
      const gone = once(server, 'exit');
      server.kill();
      await gone;
    },
  };
}

/** Settings for a server of version 1, as the configuration would give them. */
export function settingsFor(url: string, change: Partial<InfluxSettings> = {}): InfluxSettings {
  return influxSettingsSchema.parse({ url, version: '1', database: 'yard', ...change });
}

/** Runs a statement of InfluxQL at a server of version 1 that asks for no password. */
export async function influxStatement(url: string, statement: string): Promise<void> {
  const answer = await fetch(`${url}/query?${new URLSearchParams({ q: statement })}`, { method: 'POST' });
  const text = await answer.text();
  if (!answer.ok || text.includes('"error"')) throw new Error(`${statement}: ${text}`);
}

async function answers(url: string): Promise<boolean> {
  try {
    return (await fetch(`${url}/ping`)).ok;
  } catch {
    return false;
  }
}

function configuration(folder: string, port: number, backupPort: number): string {
  return `
reporting-disabled = true
bind-address = "127.0.0.1:${backupPort}"
[meta]
  dir = "${join(folder, 'meta')}"
[data]
  dir = "${join(folder, 'data')}"
  wal-dir = "${join(folder, 'wal')}"
  query-log-enabled = false
[http]
  bind-address = "127.0.0.1:${port}"
  log-enabled = false
[monitor]
  store-enabled = false
`;
}
