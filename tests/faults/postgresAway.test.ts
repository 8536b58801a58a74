/**
 * A yard in one process, its records and readings in PostgreSQL, and PostgreSQL gone in the middle of a hot spell: nothing
 * is acknowledged that is not stored, the program stays up and says what is missing, and alarm and text come once it is back.
 */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openPostgresSeries, openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import type { AlarmList } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { type HotPile, packOfCores, setUpHotPile, throughTheCeiling } from '../helpers/hotPile.ts';
import { openKeyedGateway } from '../helpers/keyedGateway.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const minuteMs = 60_000;
const cleanUp: (() => unknown)[] = [];
let postgres: PostgresServer;
let address = '';
let gateway: Awaited<ReturnType<typeof openKeyedGateway>>;
let yard: YardProcess;
let client: ApiClient;
let hot: HotPile;
let sender: MqttClient;

/** Still warm, before it all. */
const warm = Array.from({ length: 12 }, (_, index) => 60 + (index % 3) * 0.25);
const endMs = Date.now() - 5 * minuteMs;

describeIf(findPostgres() !== null, postgresMissing)('PostgreSQL under a yard in one process', () => {
  beforeAll(async () => {
    const folder = await temporaryFolder();
    cleanUp.push(folder.remove);
    postgres = await startPostgres();
    cleanUp.push(() => postgres.stop());
    address = await postgres.createDatabase();
    gateway = await openKeyedGateway();
    cleanUp.push(gateway.close);
    yard = await startYardProcess(folder.path, [
      ...['--records.postgresUrl', address, '--series.postgresUrl', address],
      ...['--sms.url', gateway.url, '--watch.outageMinutes', 'null'],
    ]);
    cleanUp.push(() => yard.stop());
    client = createApiClient(yard.url);
    hot = await setUpHotPile(client, yard.setUpToken);
    const { probe, secret } = hot.probe;
    // As a probe in the field: it tries again also when it is told that nobody can be let in just now.
    const again = { reconnectPeriod: 500, reconnectOnConnackError: true };
    const sign = { username: probe.id, password: secret, clientId: 'a-probe', clean: false, ...again };
    sender = await connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, sign);
    sender.on('error', () => {});
    cleanUp.push(() => sender.endAsync(true));
  }, 120_000);
  afterAll(async () => {
    for (const undo of cleanUp.reverse()) await undo();
  }, 60_000);

  it('away: readings wait with the probe, the program stays; back: each stored once, one alarm, one text', {
    timeout: 180_000,
  }, async () => {
    const hotStartMs = endMs - (throughTheCeiling.length - 1) * 5 * minuteMs;
    await send(packOfCores(hot.probe, warm, hotStartMs - 5 * minuteMs));
    await postgres.crash();

    let acknowledged = false;
    const sending = send(packOfCores(hot.probe, throughTheCeiling, endMs)).then(() => {
      acknowledged = true;
    });
    await eventually(
      'it says that it is not ready, and why',
      async () => {
        const { ready, checks } = await readiness();
        return !ready && checks.some(({ text }) => text.includes('the records database'));
      },
      60_000,
      200,
    );
    const awayMs = 8_000;
    await new Promise((resolve) => setTimeout(resolve, awayMs));
    expect(acknowledged, 'nothing was acknowledged that is not stored').toBe(false);
    expect((await fetch(`${yard.url}/healthz`)).ok, 'it lives').toBe(true);
    // People are told, and not kept waiting for ever.
    await expect(client.get('/api/alarms')).rejects.toThrow(
      /: 503 [\s\S]*database of this yard does not answer/,
    );
    expect(gateway.taken).toEqual([]);

    const backAt = performance.now();
    await postgres.startAgain();
    await sending;
    await eventually('the text', () => ceilingTexts().length > 0, 120_000, 100);
    const seconds = ((performance.now() - backAt) / 1000).toFixed(1);
    await eventually('it is ready again', async () => (await readiness()).ready, 60_000, 200);

    const series = await openPostgresSeries(openSeriesPool({ connectionString: address }));
    cleanUp.push(() => series.close());
    const channel = `${hot.probe.probe.id}_core`;
    const stored = await series.range({ channel, fromMs: 0, toMs: 9e12, quality: 'all' });
    const sent = warm.length + throughTheCeiling.length;
    expect(stored).toHaveLength(sent);
    expect((await series.append([])).lastSequence).toBe(sent);
    const { alarms } = await client.get<AlarmList>('/api/alarms?standing=false');
    expect(alarms.filter(({ condition }) => condition === 'too-hot-ceiling')).toMatchObject([
      { state: 'unacknowledged', occurrence: 1 },
    ]);
    expect(ceilingTexts()).toHaveLength(1);
    noteFault({
      fault: 'PostgreSQL, with records and readings of a yard in one process, gone while a pile gets too hot',
      expected:
        'nothing acknowledged that is not stored; the program stays and says why; alarm and text once it is back',
      seen: `${throughTheCeiling.length} readings not acknowledged for ${awayMs / 1000} s and more; ${sent} of ${sent} stored once; 1 alarm, 1 text ${seconds} s after PostgreSQL came back`,
    });
  });
});

const send = async (pack: string) => sender.publishAsync(hot.probe.mqtt.topic, pack, { qos: 1 });
const ceilingTexts = () => gateway.taken.filter(({ text }) => text.includes('core too hot'));

async function readiness(): Promise<{ ready: boolean; checks: { text: string }[] }> {
  return (await fetch(`${yard.url}/readyz`)).json() as never;
}
