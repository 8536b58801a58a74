/**
 * Readings in PostgreSQL, forwarded to a real InfluxDB by one of two processes of the series service: InfluxDB away, the
 * process that forwards killed, and after both nothing lost and nothing twice.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import type { DiskStatus } from '../../services/series/forward/status.ts';
import { keepLocalSpace } from '../../services/series/influx/localSpace.ts';
import { openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import { openSharedSeries, type SharedSeries } from '../../services/series/openSharedSeries.ts';
import { openPostgresForwardState } from '../../services/series/postgres/forwardState.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { type InfluxServer, influxdProgram, settingsFor, startInfluxd } from '../helpers/influxd.ts';
import { sameTotals, second, startMs, totalsHere, totalsThere } from '../helpers/influxTrouble.ts';
import { findPostgres, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { type ServiceProcess, startServices } from '../helpers/serviceProcess.ts';
import { quietLogger, temporaryFolder } from '../helpers/writePath.ts';

const canRun = findPostgres() !== null && influxdProgram !== null;
const reason = findPostgres() === null ? postgresMissing : 'influxd is not installed';
const seconds = 300;
const takeOverWithinMs = 30_000;
const cleanUp: (() => unknown)[] = [];
let records: Records;
let shared: SharedSeries;
let influxd: InfluxServer;
let folder: Awaited<ReturnType<typeof temporaryFolder>>;
let flags: string[] = [];
let address = '';

describeIf(canRun, reason)('InfluxDB behind readings in PostgreSQL', () => {
  beforeAll(async () => {
    folder = await temporaryFolder();
    cleanUp.push(folder.remove);
    const postgres = await startPostgres();
    cleanUp.push(() => postgres.stop());
    address = await postgres.createDatabase();
    influxd = await startInfluxd(folder.path);
    cleanUp.push(() => influxd.stop());
    await influxd.execute('CREATE DATABASE yard');
    const influx = settingsFor(influxd.url);
    records = await openRecords({ kind: 'postgres', connectionString: address });
    cleanUp.push(() => records.close());
    const clock = { nowMs: () => startMs + seconds * 1000 };
    shared = await openSharedSeries({ postgresUrl: address, influx, clock, logger: quietLogger });
    cleanUp.push(() => shared.close());
    const given = { url: influx.url, version: '1', database: 'yard' };
    flags = [
      ...['--records.postgresUrl', address, '--series.postgresUrl', address],
      ...['--series.influx', JSON.stringify(given)],
    ];
  }, 120_000);
  afterAll(async () => {
    for (const undo of cleanUp.reverse()) await undo();
  }, 60_000);

  it('gets everything once, through its own absence and the end of the process that forwards', {
    timeout: 240_000,
  }, async () => {
    const [one, other] = await Promise.all([start(), start()]);
    await load(0, 100);
    await eventually(
      'InfluxDB has what came first',
      async () => (await countThere()) === 10_000,
      60_000,
      200,
    );

    await influxd.stop();
    await load(100, 200);
    const { forwards, stands } = await tellApart(one, other);
    await eventually(
      'the one that forwards says what waits',
      async () => ((await forwards.metrics()).get('tilth_forward_waiting_readings') ?? 0) === 10_000,
      60_000,
      200,
    );
    const id = await forwards.processId();
    const killedAt = performance.now();
    await forwards.stop('SIGKILL');
    await eventually('the other one forwards', async () => (await keeper()) !== id, 60_000, 200);
    const tookOverMs = performance.now() - killedAt;
    expect(tookOverMs).toBeLessThan(takeOverWithinMs);
    influxd = await startInfluxd(folder.path, influxd.port);
    await load(200, seconds);

    await eventually(
      'InfluxDB has everything',
      async () => (await countThere()) === seconds * 100,
      90_000,
      200,
    );
    const [here, there] = [await totalsHere(shared), await totalsThere(influxd.url)];
    expect(there).toEqual(here);
    expect((await stands.metrics()).get('tilth_forward_waiting_readings')).toBe(0);
    await asksInfluxForThePast();
    noteFault({
      fault: 'InfluxDB away, and of two processes over PostgreSQL the one that forwards to it killed',
      expected: 'the other goes on from its place within 30 s; nothing lost, nothing twice',
      seen: `taken over after ${(tookOverMs / 1000).toFixed(1)} s; ${sameTotals(there)}`,
    });
    expect(await stands.stop()).toBe(0);
  });
});

async function start(): Promise<ServiceProcess> {
  const started = await startServices('series', flags);
  cleanUp.push(() => started.stop('SIGKILL'));
  return started;
}

async function load(from: number, to: number): Promise<void> {
  for (let index = from; index < to; index++) await shared.local.append(second(index));
}

async function countThere(): Promise<number> {
  const totals = Object.values(await totalsThere(influxd.url));
  return totals.reduce((sum, { count }) => sum + count, 0);
}

/** Who looks after the readings. */
const keeper = async () =>
  (await records.leases.list()).find(({ name }) => name === 'series:keeping')?.holder ?? null;

async function tellApart(one: ServiceProcess, other: ServiceProcess) {
  const isOne = (await keeper()) === (await one.processId());
  return isOne ? { forwards: one, stands: other } : { forwards: other, stands: one };
}

/** What PostgreSQL has let go of, InfluxDB answers: the same range before and after. */
async function asksInfluxForThePast(): Promise<void> {
  const { channel } = second(0)[0]!;
  const query = { channel, fromMs: startMs, toMs: startMs + seconds * 1000, quality: 'all' } as const;
  const before = await shared.series.range(query);
  expect(before).toHaveLength(5);
  const pool = openSeriesPool({ connectionString: address });
  const state = await openPostgresForwardState(pool);
  const forwardedSequence = () => state.mark('forwarded') ?? 0;
  const disk = (): DiskStatus => ({ usedBytes: 0, limitBytes: 1e9, level: 'ok' });
  const parts = { journal: shared.local, state, forwardedSequence, disk, localDays: 7 };
  const nowMs = startMs + 7 * 86_400_000 + (seconds / 2) * 1000;
  expect(await keepLocalSpace(parts, nowMs)).toBe((seconds / 2) * 100);
  await pool.end();
  expect(await shared.local.range(query)).toHaveLength(2);
  expect(await shared.series.range(query)).toEqual(before);
}
