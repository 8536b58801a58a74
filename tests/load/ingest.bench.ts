/**
 * How many readings a second are stored and acknowledged, through the embedded broker and through mosquitto, beside a
 * bare broker that stores nothing, in the same run on the same machine: `npm run bench ingest [messages]`.
 * One reading a message, the least favourable case; a pack of fifty costs little more than one of one.
 */
import { createServer } from 'node:net';
import { Worker } from 'node:worker_threads';
import { Aedes } from 'aedes';
import { systemClock } from '../../services/clock.ts';
import { startMqttSource } from '../../services/ingest/mqttSource.ts';
import { eventually } from '../helpers/eventually.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import {
  quietLogger,
  readingsTopic,
  secretOf,
  startIngest,
  startWritePath,
  temporaryFolder,
} from '../helpers/writePath.ts';
import type { PublisherTask } from './rawPublisher.ts';

const messages = Number(process.argv[2] ?? 60_000);
const probes = ['a', 'b', 'c', 'd'].map((letter) => {
  const id = `urn:dev:example:bench-${letter}`;
  return { id, secret: secretOf(id), topic: readingsTopic(id) };
});

/** Publishes everything and resolves with how long the last acknowledgement took. */
async function publish(port: number): Promise<number> {
  const startMs = Date.now() - 3_600_000;
  const workerData: PublisherTask = { port, messages, inFlight: 4_000, probes, startMs };
  const worker = new Worker(new URL('./rawPublisher.ts', import.meta.url), { workerData });
  return new Promise((resolve, reject) => {
    worker.once('message', ({ milliseconds }) => resolve(milliseconds));
    worker.once('error', reject);
  });
}

async function bareBroker(): Promise<number> {
  const aedes = await Aedes.createBroker();
  const server = createServer(aedes.handle);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const milliseconds = await publish((server.address() as { port: number }).port);
  await new Promise<void>((resolve) => aedes.close(resolve));
  await new Promise((resolve) => server.close(resolve));
  return milliseconds;
}

async function embeddedBroker(): Promise<number> {
  const path = await startWritePath();
  for (const { id, secret } of probes) path.records.addProbe(id, secret);
  const milliseconds = await publish(path.broker.port);
  const { readingsStored } = path.ingest.statistics();
  if (readingsStored !== messages) throw new Error(`${readingsStored} of ${messages} stored`);
  await path.stop();
  return milliseconds;
}

/** Until the last reading is stored: mosquitto acknowledges publishers before we have seen anything. */
async function externalBroker(): Promise<number> {
  const folder = await temporaryFolder();
  const broker = await startMosquitto(folder.path);
  const path = await startIngest();
  for (const { id, secret } of probes) path.records.addProbe(id, secret);
  const source = startMqttSource({
    config: { url: broker.url, user: null, password: null, protocol: '5', clientId: 'bench' },
    mappedFilters: [],
    ingest: path.ingest,
    clock: systemClock,
    logger: quietLogger,
  });
  await eventually('the source is connected', () => source.isConnected());
  const startedMs = performance.now();
  await publish(Number(new URL(broker.url).port));
  const isStored = () => path.ingest.statistics().readingsStored === messages;
  await eventually('everything is stored', isStored, 120_000);
  const milliseconds = performance.now() - startedMs;
  await source.stop();
  await path.stop();
  await broker.stop();
  await folder.remove();
  return milliseconds;
}

const perSecond = (milliseconds: number) => Math.round((messages / milliseconds) * 1000);
const bare = perSecond(await bareBroker());
const report = (name: string, rate: number) =>
  console.log(
    `${name.padEnd(44)} ${String(rate).padStart(7)} messages/s  ${(rate / bare).toFixed(2)} of bare`,
  );
report('bare broker, nothing stored', bare);
report('embedded broker, stored, then acknowledged', perSecond(await embeddedBroker()));
if (mosquittoProgram === null) console.log('mosquitto is not installed: not measured');
else report('mosquitto, stored (MQTT 5 session)', perSecond(await externalBroker()));
