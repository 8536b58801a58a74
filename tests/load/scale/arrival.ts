import { statSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { systemClock } from '../../../services/clock.ts';
import { startMqttSource } from '../../../services/ingest/mqttSource.ts';
import { eventually } from '../../helpers/eventually.ts';
import { startMosquitto } from '../../helpers/mosquitto.ts';
import {
  quietLogger,
  readingsTopic,
  secretOf,
  startIngest,
  startWritePath,
  temporaryFolder,
} from '../../helpers/writePath.ts';
import type { PublisherTask } from '../rawPublisher.ts';
import { ownCost, processorMicrosecondsOf } from './processorTime.ts';

const warmUp = 4_000;
const probes = ['a', 'b', 'c', 'd'].map((letter) => {
  const id = `urn:dev:example:scale-${letter}`;
  return { id, secret: secretOf(id), topic: readingsTopic(id) };
});

/** Publishes from a thread of its own and resolves with the processor time that took, to be taken off ours. */
async function publish(
  port: number,
  messages: number,
  readingsPerMessage: number,
  hoursAgo = 1,
): Promise<number> {
  const startMs = Date.now() - hoursAgo * 3_600_000;
  const workerData: PublisherTask = { port, messages, inFlight: 4_000, probes, startMs, readingsPerMessage };
  const worker = new Worker(new URL('../rawPublisher.ts', import.meta.url), { workerData });
  return new Promise((resolve, reject) => {
    worker.once('message', ({ processorMicroseconds }) => resolve(processorMicroseconds));
    worker.once('error', reject);
  });
}

/** JSON of one reading taken apart and put together again: what nothing that takes JSON can do without. */
export async function bareCost(messages: number): Promise<number> {
  const text = JSON.stringify([{ n: `${probes[0]!.id}_core`, u: 'Cel', v: 60.5, t: 1_780_272_000.1 }]);
  let length = 0;
  const loop = async (count: number) => {
    for (let index = 0; index < count; index++) length += JSON.stringify(JSON.parse(text)).length;
  };
  await loop(messages);
  const cost = await ownCost(messages, () => loop(messages));
  if (length !== 2 * messages * text.length) throw new Error('the baseline did not run');
  return cost;
}

/** Through the built-in broker; also bytes of a stored reading. */
export async function builtInCost(messages: number, readingsPerMessage: number) {
  const folder = await temporaryFolder();
  const path = await startWritePath({ folder: folder.path });
  for (const { id, secret } of probes) path.records.addProbe(id, secret);
  await publish(path.broker.port, warmUp, readingsPerMessage, 4);
  let publishing = 0;
  const cost = await ownCost(messages, async () => {
    publishing = await publish(path.broker.port, messages, readingsPerMessage);
  });
  const { readingsStored } = path.ingest.statistics();
  if (readingsStored !== (warmUp + messages) * readingsPerMessage)
    throw new Error(`${readingsStored} stored`);
  await path.stop();
  const { size } = statSync(join(folder.path, 'series.sqlite'));
  await folder.remove();
  return { microseconds: cost - publishing / messages, bytesPerReading: size / readingsStored };
}

/** From Mosquitto: our part and the broker's. */
export async function takenCost(messages: number) {
  const folder = await temporaryFolder();
  const broker = await startMosquitto(folder.path);
  const path = await startIngest();
  for (const { id, secret } of probes) path.records.addProbe(id, secret);
  const source = startMqttSource({
    config: { url: broker.url, user: null, password: null, protocol: '5', clientId: 'scale' },
    ...{ mappedFilters: [], ingest: path.ingest, clock: systemClock, logger: quietLogger },
  });
  await eventually('the source is connected', () => source.isConnected());
  const before = processorMicrosecondsOf(broker.pid);
  let publishing = 0;
  const ours = await ownCost(messages, async () => {
    publishing = await publish(broker.port, messages, 1);
    await eventually(
      'everything is stored',
      () => path.ingest.statistics().readingsStored === messages,
      180_000,
    );
  });
  const theirs = (processorMicrosecondsOf(broker.pid) - before) / messages;
  await source.stop();
  await path.stop();
  await broker.stop();
  await folder.remove();
  return { ours: ours - publishing / messages, theirs };
}
