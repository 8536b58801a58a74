/** The machine room on the real program: stop under load, monitors, and the commands beside a running yard. */
import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { PileView, ProbeCredential, SessionView } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { readOpenMetrics } from '../helpers/readOpenMetrics.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const services = fileURLToPath(new URL('../../services/', import.meta.url));
const inFlight = 200;
const cleanUp: (() => unknown)[] = [];
let folder: string;
let yard: YardProcess;
let client: ApiClient;
let probe: ProbeCredential;
const at = (name: string) => join(folder, name);
const startMs = Math.floor(Date.now() / 1000) * 1000 - 6 * 3_600_000;
const timeOf = (number: number) => startMs + number * 100;

beforeEach(async () => {
  const made = await temporaryFolder();
  folder = made.path;
  cleanUp.push(made.remove);
  yard = await startYardProcess(at('data'));
  cleanUp.push(() => yard.stop());
  await setUp();
});
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

async function setUp(): Promise<void> {
  client = createApiClient(yard.url);
  await client.post<SessionView>('/api/links/first-set-up', {
    token: yard.setUpToken,
    yard: { name: 'Gannet Row', timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 },
    person: { name: 'Wren', login: 'wren', password: 'leaf mould and seaweed' },
  });
  const made = { name: 'Cage 2', place: 'bay 3', method: 'static-cage', startedMs: startMs - 86_400_000 };
  const pile = await client.post<PileView>('/api/piles', made);
  probe = await client.post('/api/probes', { id: 'urn:dev:ow:28139bbb0b00001f', label: 'probe 1' });
  await client.post('/api/placements', {
    ...{ pileId: pile.id, channel: `${probe.probe.id}_core`, quantity: 'temperature', position: 'core' },
    ...{ depthMetres: 0.6, fromMs: pile.startedMs },
  });
}

/** Publishes reading after reading at full speed, some hundred on their way at any time; tells which were acknowledged. */
async function startStream() {
  const sign = { username: probe.probe.id, password: probe.secret, reconnectPeriod: 0 };
  const sender: MqttClient = await connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, sign);
  sender.on('error', () => undefined);
  cleanUp.push(() => sender.endAsync(true));
  const acknowledged: number[] = [];
  let next = 0;
  let isGoing = true;
  const publishNext = (): void => {
    if (!isGoing || !sender.connected) return;
    const number = next++;
    const record = {
      n: `${probe.probe.id}_core`,
      u: 'Cel',
      v: 60 + (number % 10) / 16,
      t: timeOf(number) / 1000,
    };
    sender.publish(probe.mqtt.topic, JSON.stringify([record]), { qos: 1 }, (error) => {
      if (error) return;
      acknowledged.push(number);
      publishNext();
    });
  };
  for (let count = 0; count < inFlight; count++) publishNext();
  const stop = async () => {
    isGoing = false;
    await eventually('what is on its way is acknowledged', () => acknowledged.length === next);
  };
  return { acknowledged, stop };
}

async function storedTimes(dataFolder: string): Promise<number[]> {
  const series = await openSqliteSeries({ file: join(dataFolder, 'series.sqlite') });
  const query = { channel: `${probe.probe.id}_core`, fromMs: 0, toMs: 2 * startMs, quality: 'all' } as const;
  const found = await series.range(query);
  await series.close();
  return found.map(({ timeMs }) => timeMs);
}

/** Runs a command of the machine room as npm does. */
const run = (program: string, ...words: string[]) =>
  promisify(execFile)(process.execPath, [join(services, program), ...words]);

describe('a stop in the middle of a stream', () => {
  it('ends in good order and loses nothing that was acknowledged; the next start goes on', async () => {
    const stream = await startStream();
    await eventually('the stream runs', () => stream.acknowledged.length > 2_000);
    const code = await yard.stop('SIGTERM');
    expect(code, yard.output()).toBe(0);
    expect(yard.output()).not.toMatch(/"level":(40|50|60)[^\n]*stopping/);
    const stored = await storedTimes(at('data'));
    const found = new Set(stored);
    expect(stream.acknowledged.filter((number) => !found.has(timeOf(number)))).toEqual([]);
    expect(found.size).toBe(stored.length);
    yard = await startYardProcess(at('data'));
    const ready = await fetch(`${yard.url}/readyz`);
    expect(ready.status).toBe(200);
  }, 90_000);
});

describe('a monitor', () => {
  it('reads numbers that agree with what was sent, and that everything is ready', async () => {
    const stream = await startStream();
    await eventually('the stream runs', () => stream.acknowledged.length > 500);
    await stream.stop();
    const answer = await fetch(`${yard.url}/metrics`);
    expect(answer.headers.get('content-type')).toContain('openmetrics');
    const metrics = readOpenMetrics(await answer.text());
    expect(metrics.get('tilth_ingest_readings_stored_total')).toBe(stream.acknowledged.length);
    expect(metrics.get('tilth_broker_connected_probes')).toBe(1);
    expect(metrics.get('tilth_series_last_sequence')).toBe(stream.acknowledged.length);
    expect(metrics.get('tilth_ingest_waiting_messages')).toBe(0);
    expect(metrics.get('tilth_messages{state="failed"}')).toBe(0);
    const ready = await (await fetch(`${yard.url}/readyz`)).json();
    expect(ready).toMatchObject({ ready: true });
    expect((await fetch(`${yard.url}/metrics`, { headers: { 'x-forwarded-for': '192.0.2.1' } })).status).toBe(
      404,
    );
  }, 60_000);
});

describe('commands beside a running yard', () => {
  it('a backup made under load holds what was acknowledged before it began, and starts', async () => {
    const stream = await startStream();
    await eventually('the stream runs', () => stream.acknowledged.length > 1_000);
    const before = stream.acknowledged.slice();
    const made = await run('backup.ts', '--to', at('backup'), '--dataFolder', at('data'));
    expect(made.stdout).toContain('The backup is in');
    await stream.stop();
    await expect(
      run('restore.ts', '--from', at('backup'), '--dataFolder', at('data'), '--replace'),
    ).rejects.toThrow(/is running/);
    await yard.stop();
    const there = ['--from', at('backup'), '--dataFolder', at('data')];
    await expect(run('restore.ts', ...there)).rejects.toThrow(/--replace/);
    await run('restore.ts', ...there, '--replace');
    const found = new Set(await storedTimes(at('data')));
    expect(before.filter((number) => !found.has(timeOf(number)))).toEqual([]);
    yard = await startYardProcess(at('data'));
    expect(yard.setUpToken).toBeNull();
  }, 120_000);

  it('an export goes into another folder; its owner gets in by the printed link, the probe only with a new secret', async () => {
    const stream = await startStream();
    await eventually('the stream runs', () => stream.acknowledged.length > 500);
    await stream.stop();
    await run('exportYard.ts', '--to', at('export'), '--dataFolder', at('data'));
    const manifest = JSON.parse(await readFile(at('export/export.json'), 'utf8'));
    expect(manifest.channels[0].readings).toBe(stream.acknowledged.length);
    const { stdout } = await run('importYard.ts', '--from', at('export'), '--dataFolder', at('other'));
    expect(stdout).toContain(`Gannet Row: ${stream.acknowledged.length} readings of 1 channels are in.`);
    const token = /#\/set-password\/(\S+)/.exec(stdout)![1]!;
    await yard.stop();
    yard = await startYardProcess(at('other'));
    const owner = createApiClient(yard.url);
    await owner.post('/api/links/set-password', { token, password: 'a wholly new pass phrase' });
    expect(await owner.get<PileView[]>('/api/piles')).toMatchObject([{ name: 'Cage 2' }]);
    const sign = { username: probe.probe.id, password: probe.secret, reconnectPeriod: 0 };
    await expect(connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, sign, false)).rejects.toThrow();
    const fresh = await owner.post<ProbeCredential>(
      `/api/probes/${encodeURIComponent(probe.probe.id)}/secret`,
      {},
    );
    const again = await connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, {
      ...sign,
      password: fresh.secret,
    });
    await again.endAsync();
  }, 120_000);
});
