import { execFileSync } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { openRecords, type RecordsOptions } from '../../../services/records/openRecords.ts';
import { openPostgresSeries, openSeriesPool } from '../../../services/series/openPostgresSeries.ts';
import type { Reading } from '../../../shared/readings/reading.ts';
import {
  pileValues,
  sampleAlarm,
  sampleMessage,
  sampleStatus,
  sampleTransition,
  sampleYard,
  startMs,
  stepOf,
} from '../../contract/records/samples.ts';
import { settingsFor, startInfluxd } from '../../helpers/influxd.ts';
import { caughtUp, openForwarding } from '../../helpers/influxSeries.ts';
import { startPostgres } from '../../helpers/postgres.ts';
import { temporaryFolder } from '../../helpers/writePath.ts';
import { ownCost, processorMicrosecondsOf } from './processorTime.ts';

const channels = 2_000;

/** Readings of many channels, one every five minutes, moving as piles do. */
function readingsAt(step: number): Reading[] {
  return Array.from({ length: channels }, (_, number): Reading => {
    const value = Math.round((55 + 8 * Math.sin(step / 300 + number)) * 16) / 16;
    const channel = `urn:dev:example:scale-${number >> 2}_core${number & 3}`;
    return {
      ...{ channel, timeMs: startMs + step * 300_000, rawValue: value, value },
      ...{ quality: 'good', reason: null },
    };
  });
}

/** A reading's way to InfluxDB: ours, InfluxDB's, and its bytes there once InfluxDB has packed what it took. */
export async function forwardCost(readings: number) {
  const folder = await temporaryFolder();
  process.env.INFLUXDB_DATA_CACHE_SNAPSHOT_WRITE_COLD_DURATION = '1s';
  const server = await startInfluxd(folder.path);
  await server.execute('CREATE DATABASE yard');
  const held = await openForwarding(folder.path, settingsFor('http://127.0.0.1:9'));
  for (let step = 0; step * channels < readings; step++) await held.local.append(readingsAt(step));
  await held.close();
  const before = processorMicrosecondsOf(server.pid);
  const ours = await ownCost(readings, async () => {
    const opened = await openForwarding(folder.path, settingsFor(server.url));
    await caughtUp(opened, 300_000);
    await opened.close();
  });
  await sleep(15_000);
  const theirs = (processorMicrosecondsOf(server.pid) - before) / readings;
  const du = execFileSync('du', ['-sb', `${folder.path}/influx/data`, `${folder.path}/influx/wal`]);
  const bytes = String(du)
    .trim()
    .split('\n')
    .reduce((sum, line) => sum + Number.parseInt(line, 10), 0);
  await server.stop();
  await folder.remove();
  return { ours, theirs, bytesPerReading: bytes / readings };
}

/** Steps of alarms with their texts, and statuses fifty at a time, as rules write them. */
async function recordsCost(options: RecordsOptions, steps: number) {
  const records = await openRecords(options);
  const sample = await sampleYard(records);
  const piles: string[] = [];
  for (let number = 0; number < 50; number++)
    piles.push((await records.piles.create(pileValues(sample.yard.id))).id);
  const alarm = sampleAlarm(sample);
  const alarms = await ownCost(steps, async () => {
    for (let version = 1; version <= steps; version++)
      await records.alarms.commit(
        stepOf({
          alarms: [{ ...alarm, version }],
          transitions: [sampleTransition(alarm)],
          messages: [sampleMessage(sample)],
        }),
      );
  });
  const statuses = await ownCost(steps * 50, async () => {
    for (let round = 0; round < steps; round++)
      await records.alarms.commit(
        stepOf({
          statuses: piles.map((id) => sampleStatus(id, { assessedMs: startMs + round, hoursAbove55: round })),
        }),
      );
  });
  await records.close();
  return { alarms, statuses };
}

/** Readings of split services: ours and the server's together, and bytes of its tables and indexes. */
export async function postgresSeriesCost(groups: number) {
  const server = await startPostgres();
  const connectionString = await server.createDatabase();
  const pool = openSeriesPool({ connectionString });
  const series = await openPostgresSeries(pool);
  const before = processorMicrosecondsOf(server.pid);
  const perGroup = 100;
  const all = Array.from({ length: Math.ceil((groups * perGroup) / channels) }, (_, step) =>
    readingsAt(step),
  ).flat();
  const ours = await ownCost(groups * perGroup, async () => {
    for (let group = 0; group < groups; group++)
      await series.append(all.slice(group * perGroup, (group + 1) * perGroup));
  });
  const { rows } = await pool.query<{ bytes: string }>(
    'SELECT pg_database_size(current_database()) AS bytes',
  );
  const [empty] = (await pool.query<{ bytes: string }>(`SELECT pg_database_size('template1') AS bytes`)).rows;
  const stored = groups * perGroup;
  await series.close();
  await sleep(500);
  const theirs = (processorMicrosecondsOf(server.pid) - before) / stored;
  await server.stop();
  const bytesPerReading = (Number(rows[0]!.bytes) - Number(empty!.bytes)) / stored;
  return { microseconds: ours + theirs, bytesPerReading };
}

export async function sqliteCost(steps: number) {
  const folder = await temporaryFolder();
  const cost = await recordsCost({ kind: 'sqlite', file: `${folder.path}/records.sqlite` }, steps);
  await folder.remove();
  return cost;
}

/** Ours and the server's together; of the server's, backends count when they have ended. */
export async function postgresCost(steps: number) {
  const server = await startPostgres();
  const connectionString = await server.createDatabase();
  const open = () => openRecords({ kind: 'postgres', connectionString, maxConnections: 1 });
  await (await open()).close();
  const settled = async () => {
    await sleep(300);
    return processorMicrosecondsOf(server.pid);
  };
  const before = await settled();
  const ours = await recordsCost({ kind: 'postgres', connectionString, maxConnections: 1 }, steps);
  const theirs = (await settled()) - before;
  await server.stop();
  // The server's time is not told apart by kind of statement; it is shared out as ours is.
  const total = ours.alarms * steps + ours.statuses * steps * 50;
  const share = 1 + theirs / total;
  return { alarms: ours.alarms * share, statuses: ours.statuses * share };
}
