/**
 * How long the queue of a broker of one's own must be: what comes while ingest is away waits there, and what does not fit
 * is dropped by the broker after it was acknowledged to the probe. services/broker/README.md says what to set.
 */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, expect, it } from 'vitest';
import { systemClock } from '../../services/clock.ts';
import { startMqttSource } from '../../services/ingest/mqttSource.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { describeIf } from '../helpers/requirement.ts';
import {
  firstProbe,
  quietLogger,
  readingsTopic,
  startIngest,
  temporaryFolder,
} from '../helpers/writePath.ts';

const sent = 400;
const channel = `${firstProbe}_core`;
const startMs = Math.floor(Date.now() / 1000) * 1000 - 4 * 3_600_000;
const packOf = (number: number) =>
  JSON.stringify([{ n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: startMs / 1000 + number }]);

const cleanUp: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

/** Stops ingest, sends, starts ingest again; numbers of the readings that are stored in the end. */
async function storedAfterAbsence(mostQueued?: number): Promise<number[]> {
  const folder = await temporaryFolder();
  cleanUp.push(folder.remove);
  const broker = await startMosquitto(folder.path, mostQueued === undefined ? {} : { mostQueued });
  cleanUp.push(() => broker.stop());
  const path = await startIngest();
  cleanUp.push(path.stop);
  const config = { url: broker.url, user: null, password: null, protocol: '5', clientId: 'queue' } as const;
  const startSource = async () => {
    const more = { mappedFilters: [], ingest: path.ingest, clock: systemClock, logger: quietLogger };
    const source = startMqttSource({ config, ...more });
    await eventually('we are connected', () => source.isConnected());
    return source;
  };
  const probe: MqttClient = await connectAsync(broker.url);
  cleanUp.push(() => probe.endAsync(true));
  const publish = (number: number) =>
    probe.publishAsync(readingsTopic(firstProbe), packOf(number), { qos: 1 });
  await (await startSource()).stop();
  for (let number = 0; number < sent; number++) await publish(number);
  const source = await startSource();
  cleanUp.push(source.stop);
  await publish(sent);
  const stored = async () =>
    (await path.series.range({ channel, fromMs: 0, toMs: 2 * startMs, quality: 'all' })).map(
      ({ timeMs }) => (timeMs - startMs) / 1000,
    );
  // The queue is emptied in order, so when the one sent after our return is there, nothing older is to come.
  await eventually('the newest is stored', async () => (await stored()).includes(sent));
  return stored();
}

describeIf(mosquittoProgram !== null, 'mosquitto is not installed')('the queue of a broker', () => {
  it('drops what does not fit into it, which no receiver can bring back', async () => {
    const mostQueued = 100;
    const found = await storedAfterAbsence(mostQueued);
    // As many as fit the queue and the few under way; then the broker takes no more for us.
    expect(found.length).toBeGreaterThanOrEqual(mostQueued);
    expect(found.length).toBeLessThan(mostQueued + 50);
    noteFault({
      fault: `ingest away for longer than the broker’s queue is long (max_queued_messages ${mostQueued})`,
      expected: 'the broker drops what does not fit: set it as services/broker/README.md says',
      seen: `${found.length} of ${sent + 1} stored, the others dropped by the broker`,
    });
  });

  it('keeps everything where it has no limit', async () => {
    const found = await storedAfterAbsence();
    expect(found).toEqual(Array.from({ length: sent + 1 }, (_, number) => number));
    noteFault({
      fault: 'ingest away, the broker’s queue without limit (max_queued_messages 0)',
      expected: 'everything arrives, once and in order',
      seen: `${found.length} of ${sent + 1} stored`,
    });
  });
});
