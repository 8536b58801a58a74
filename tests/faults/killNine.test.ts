import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { connectAsync } from 'mqtt';
import { afterEach, describe, expect, it } from 'vitest';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { firstProbe, readingsTopic, secretOf, temporaryFolder } from '../helpers/writePath.ts';

const kills = 20;
/** Messages on their way at any time: far more than one commit takes. */
const inFlight = 500;
const channel = `${firstProbe}_core`;
const startMs = Math.floor(Date.now() / 1000) * 1000 - 8 * 3_600_000;
const timeOf = (number: number) => startMs + number * 100;

let child: ChildProcess | null = null;

async function startProcess(folder: string): Promise<number> {
  const program = new URL('../helpers/writePathProcess.ts', import.meta.url).pathname;
  child = spawn(process.execPath, [program, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  const [line] = await once(createInterface({ input: child.stdout! }), 'line');
  return JSON.parse(String(line)).port;
}

async function killNine(): Promise<void> {
  if (child === null || child.exitCode !== null) return;
  const gone = once(child, 'exit');
  child.kill('SIGKILL');
  await gone;
  child = null;
}

/** Publishes readings number after number at full speed until the connection breaks; adds what was acknowledged. */
async function streamUntilKilled(port: number, first: number, acknowledged: Set<number>): Promise<number> {
  const options = { username: firstProbe, password: secretOf(firstProbe), reconnectPeriod: 0 };
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`, options, false);
  client.on('error', () => undefined);
  let next = first;
  let killPlanned = false;
  const publishNext = (): void => {
    if (!client.connected) return;
    const number = next++;
    const record = { n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: timeOf(number) / 1000 };
    client.publish(readingsTopic(firstProbe), JSON.stringify([record]), { qos: 1 }, (error) => {
      if (error) return;
      if (!killPlanned) setTimeout(() => void killNine(), 20 + ((first * 7) % 300));
      killPlanned = true;
      acknowledged.add(number);
      publishNext();
    });
  };
  const closed = new Promise<void>((resolve) => client.once('close', () => resolve()));
  for (let count = 0; count < inFlight; count++) publishNext();
  await closed;
  client.end(true);
  return next;
}

/** What the store holds, read after the crash by a fresh program. */
async function readBack(folder: string) {
  const series = await openSqliteSeries({ file: join(folder, 'series.sqlite') });
  const found = await series.range({ channel, fromMs: 0, toMs: 2 * startMs, quality: 'all' });
  const days = await series.rollups(channel, 'day', 0, 2 * startMs);
  const inOrder = await series.since(0, 10_000_000);
  await series.close();
  return { times: found.map(({ timeMs }) => timeMs), days, inOrder };
}

describe('kill -9 during a stream at full speed', () => {
  afterEach(killNine);

  it(`loses no acknowledged reading and doubles none, ${kills} times`, { timeout: 120_000 }, async () => {
    const folder = await temporaryFolder();
    const acknowledged = new Set<number>();
    let next = 0;
    for (let round = 0; round < kills; round++) {
      const port = await startProcess(folder.path);
      // Half of what was sent before is sent once more, as a probe does that saw no acknowledgement.
      next = await streamUntilKilled(port, Math.max(0, next - inFlight / 2), acknowledged);
      const { times, days, inOrder } = await readBack(folder.path);
      const stored = new Set(times);
      const lost = [...acknowledged].filter((number) => !stored.has(timeOf(number)));
      expect(lost, `acknowledged and not stored after kill ${round + 1}`).toEqual([]);
      expect(stored.size, 'each once').toBe(times.length);
      expect(
        days.reduce((sum, day) => sum + day.countAll, 0),
        'roll-ups agree',
      ).toBe(times.length);
      expect(inOrder.length, 'the cursor sees each once').toBe(times.length);
    }
    expect(acknowledged.size).toBeGreaterThan(kills * inFlight);
    noteFault({
      fault: `the program killed (kill -9) ${kills} times in the middle of a stream at full speed`,
      expected: 'no acknowledged reading lost, none twice, roll-ups agree',
      seen: `${acknowledged.size} acknowledged, none lost, none twice`,
    });
    await folder.remove();
  });
});
