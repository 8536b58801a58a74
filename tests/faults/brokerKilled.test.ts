/**
 * A real Mosquitto killed again and again under load. Mosquitto 2 acknowledges from memory and writes to its disk every
 * so often, so what it forgets no receiver can bring back: the sender repeats the last moments after each lost link, as
 * the reference probe does, and what arrives twice is stored once.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, expect, it } from 'vitest';
import { systemClock } from '../../services/clock.ts';
import { startMqttSource } from '../../services/ingest/mqttSource.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { freePort, mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { describeIf } from '../helpers/requirement.ts';
import {
  firstProbe,
  quietLogger,
  readingsTopic,
  startIngest,
  temporaryFolder,
} from '../helpers/writePath.ts';

const kills = 5;
const perTick = 10;
const tickMs = 10;
/** Longer than the broker waits between two saves (1 s, checked once a second), so that nothing falls between. */
const repeatMs = 4_000;
const channel = `${firstProbe}_core`;
const startMs = Math.floor(Date.now() / 1000) * 1000 - 8 * 3_600_000;
const timeOf = (number: number) => startMs + number * 100;
const packOf = (number: number) =>
  JSON.stringify([{ n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: timeOf(number) / 1000 }]);

/** A sender at a steady pace that keeps what was acknowledged lately and repeats it when the link is back. */
function startSender(client: MqttClient) {
  const acknowledgedAt = new Map<number, number>();
  let next = 0;
  const publish = (number: number) =>
    client.publish(readingsTopic(firstProbe), packOf(number), { qos: 1 }, (error) => {
      if (!error) acknowledgedAt.set(number, performance.now());
    });
  const timer = setInterval(() => {
    for (let count = 0; count < perTick; count++) publish(next++);
  }, tickMs);
  client.on('connect', () => {
    const sinceMs = performance.now() - repeatMs;
    for (const [number, atMs] of acknowledgedAt) if (atMs >= sinceMs) publish(number);
  });
  return {
    acknowledged: () => [...acknowledgedAt.keys()],
    sent: () => next,
    stop: () => clearInterval(timer),
  };
}

function acknowledgedMore(sender: ReturnType<typeof startSender>, more: number): Promise<void> {
  const target = sender.acknowledged().length + more;
  return eventually('the stream runs', () => sender.acknowledged().length > target);
}

const cleanUp: (() => unknown)[] = [];
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

describeIf(mosquittoProgram !== null, 'mosquitto is not installed')('Mosquitto killed under load', () => {
  it(`loses no acknowledged reading over ${kills} kills, and none is stored twice`, {
    timeout: 120_000,
  }, async () => {
    const folder = await temporaryFolder();
    cleanUp.push(folder.remove);
    const path = await startIngest();
    cleanUp.push(path.stop);
    const lines = ['persistence true', `persistence_location ${folder.path}/`, 'autosave_interval 1'];
    const options = { port: await freePort(), lines };
    let broker = await startMosquitto(folder.path, options);
    cleanUp.push(() => broker.stop());
    const base = {
      url: broker.url,
      user: null,
      password: null,
      protocol: '5',
      clientId: 'tilthwatch-test',
    } as const;
    const startSource = () =>
      startMqttSource({
        config: { ...base, reconnectMilliseconds: 100 },
        ...{ mappedFilters: [], ingest: path.ingest, clock: systemClock, logger: quietLogger },
      });
    let source = startSource();
    cleanUp.push(() => source.stop());
    await eventually(
      'our session is on the broker’s disk',
      () => source.isConnected() && existsSync(join(folder.path, 'mosquitto.db')),
    );
    const client = await connectAsync(broker.url, {
      clientId: 'a-probe',
      clean: false,
      reconnectPeriod: 100,
    });
    client.on('error', () => undefined);
    const sender = startSender(client);
    cleanUp.push(() => client.endAsync(true));
    for (let round = 0; round < kills; round++) {
      await acknowledgedMore(sender, 1_000 + 170 * round);
      // Every other time we are away as well: then all that comes is in the broker's memory only.
      const isAway = round % 2 === 1;
      if (isAway) await source.stop();
      await acknowledgedMore(sender, 300);
      await broker.stop('SIGKILL');
      broker = await startMosquitto(folder.path, options);
      if (isAway) source = startSource();
      await eventually('everybody is back', () => client.connected && source.isConnected());
    }
    sender.stop();
    await eventually(
      'everything is acknowledged',
      () => sender.acknowledged().length === sender.sent(),
      30_000,
    );
    const storedTimes = async () =>
      (await path.series.range({ channel, fromMs: 0, toMs: 2 * startMs, quality: 'all' })).map(
        ({ timeMs }) => timeMs,
      );
    await eventually(
      'everything is stored',
      async () => {
        const stored = new Set(await storedTimes());
        return sender.acknowledged().every((number) => stored.has(timeOf(number)));
      },
      30_000,
    );
    const times = await storedTimes();
    expect(new Set(times).size).toBe(times.length);
    expect(times.length).toBe(sender.sent());
    noteFault({
      fault: `Mosquitto killed and restarted ${kills} times under load, twice while ingest was away too`,
      expected: 'no acknowledged reading lost (probes repeat their last seconds), none stored twice',
      seen: `${times.length} acknowledged, none lost; ${path.ingest.statistics().duplicates} came again, stored once`,
    });
  });
});
