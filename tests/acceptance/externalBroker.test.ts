import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { systemClock } from '../../services/clock.ts';
import { startMqttSource } from '../../services/ingest/mqttSource.ts';
import type { IngestPort } from '../../services/ingest/port.ts';
import { eventually } from '../helpers/eventually.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { describeIf } from '../helpers/requirement.ts';
import {
  firstProbe,
  quietLogger,
  readingsTopic,
  startIngest,
  temporaryFolder,
} from '../helpers/writePath.ts';

const channel = `${firstProbe}_core`;
const startMs = Math.floor(Date.now() / 1000) * 1000 - 4 * 3_600_000;
const packOf = (number: number) =>
  JSON.stringify([{ n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: startMs / 1000 + number }]);

describeIf(mosquittoProgram !== null, 'mosquitto is not installed')('a broker of the yard’s own', () => {
  describe.each(['3.1.1', '5'] as const)('MQTT %s', (protocol) => {
    const cleanUp: (() => Promise<unknown>)[] = [];
    let url: string;
    let path: Awaited<ReturnType<typeof startIngest>>;
    let publisher: MqttClient;

    beforeEach(async () => {
      const folder = await temporaryFolder();
      cleanUp.push(folder.remove);
      const broker = await startMosquitto(folder.path);
      cleanUp.push(broker.stop);
      url = broker.url;
      path = await startIngest();
      cleanUp.push(path.stop);
      publisher = await connectAsync(url);
      cleanUp.push(() => publisher.endAsync(true));
    });
    afterEach(async () => {
      for (const undo of cleanUp.splice(0).reverse()) await undo();
    });

    const startSource = async (ingest: IngestPort = path.ingest, isLetIn = true) => {
      let refusals = 0;
      const config = { url, user: null, password: null, protocol, clientId: 'tilthwatch-test' };
      const source = startMqttSource({
        config: { ...config, reconnectMilliseconds: 100 },
        mappedFilters: [],
        ingest,
        clock: systemClock,
        logger: { ...quietLogger, warn: () => void refusals++ },
      });
      let isStopped = false;
      const stop = async () => {
        if (!isStopped) await source.stop();
        isStopped = true;
      };
      cleanUp.push(stop);
      if (isLetIn) await eventually('the source is connected', () => source.isConnected());
      return { stop, refusals: () => refusals, isConnected: () => source.isConnected() };
    };
    const publish = (first: number, count: number) =>
      Promise.all(
        Array.from({ length: count }, (_, index) =>
          publisher.publishAsync(readingsTopic(firstProbe), packOf(first + index), { qos: 1 }),
        ),
      );
    const storedCount = async () =>
      (await path.series.range({ channel, fromMs: 0, toMs: 2 * startMs, quality: 'all' })).length;
    const stored = (count: number) =>
      eventually(`${count} readings are stored`, async () => (await storedCount()) === count);

    it('stores many messages per commit and acknowledges every one', async () => {
      const source = await startSource();
      await publish(0, 3000);
      await stored(3000);
      const { messages, commits } = path.ingest.statistics();
      expect(messages).toBe(3000);
      expect(commits).toBeLessThan(500);
      await source.stop();
      await startSource();
      // Had one not been acknowledged, the broker would send it again before anything new.
      await publish(3000, 1);
      await stored(3001);
      expect(path.ingest.statistics()).toMatchObject({ messages: 3001, duplicates: 0 });
    });

    it('gets what came while it was away', async () => {
      await (await startSource()).stop();
      await publish(0, 500);
      expect(await storedCount()).toBe(0);
      await startSource();
      await stored(500);
    });

    it('loses nothing when it is stopped and started in the middle of a stream', async () => {
      const source = await startSource();
      const publishing = publish(0, 3000);
      await eventually('the stream runs', () => path.ingest.statistics().messages > 100);
      await source.stop();
      await startSource();
      await publishing;
      await stored(3000);
    });

    it('leaves unacknowledged what could not be stored, and gets it again', async () => {
      let faults = 0;
      const failsThreeTimes: IngestPort = {
        ...path.ingest,
        accept: (message) =>
          faults++ < 3 ? Promise.reject(new Error('disk full')) : path.ingest.accept(message),
      };
      await startSource(failsThreeTimes);
      await publish(0, 200);
      await stored(200);
      expect(faults).toBeGreaterThan(200);
    });

    it('comes back after it was turned away at the door', async () => {
      const folder = await temporaryFolder();
      cleanUp.push(folder.remove);
      const nobody = join(folder.path, 'passwords');
      await writeFile(nobody, '');
      const closed = await startMosquitto(folder.path, { lines: [`password_file ${nobody}`] });
      ({ url } = closed);
      const source = await startSource(path.ingest, false);
      await eventually('it was turned away', () => source.refusals() > 0);
      await closed.stop();
      const open = await startMosquitto(folder.path, { port: closed.port });
      cleanUp.push(open.stop);
      await eventually('the source is connected', () => source.isConnected());
    });

    it('does not take a retained message without a time as just measured', async () => {
      const retained = { qos: 1, retain: true } as const;
      const undated = JSON.stringify([{ n: channel, u: 'Cel', v: 70 }]);
      await publisher.publishAsync(readingsTopic(firstProbe), undated, retained);
      await startSource();
      await eventually('it is in quarantine', () => path.records.items.length === 1);
      expect(path.records.items[0]!.reason).toMatch(/retained message have no absolute time/);
      expect(await storedCount()).toBe(0);
    });
  });
});
