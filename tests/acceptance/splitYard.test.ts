/**
 * A yard's services as processes of their own over a real PostgreSQL, Mosquitto and InfluxDB, and the commands beside them:
 * two ingest processes share one subscription, readings reach InfluxDB, doctor, export, import and the way to a backup.
 */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { openPostgresSeries, openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { eventually } from '../helpers/eventually.ts';
import { influxdProgram, startInfluxd } from '../helpers/influxd.ts';
import { totalsHere, totalsThere } from '../helpers/influxTrouble.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { findPostgres, type PostgresServer, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { runCommand } from '../helpers/runCommand.ts';
import { type ServiceProcess, startServices } from '../helpers/serviceProcess.ts';
import { furnishYards, startStream } from '../helpers/splitYards.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const canRun = findPostgres() !== null && mosquittoProgram !== null && influxdProgram !== null;
const reason =
  'PostgreSQL, Mosquitto or InfluxDB is not installed (apt-get install postgresql mosquitto influxdb)';
const minutes = 60;
const cleanUp: (() => unknown)[] = [];

let postgres: PostgresServer;
let records: Records;
let series: SeriesStore;
let folder: string;
let influxUrl = '';
let brokerUrl = '';
let flags: string[] = [];
/** What every command beside the yard is told as well: where its data folder is, and which ports to look at. */
const beside = () => [
  ...flags,
  '--dataFolder',
  join(folder, 'data'),
  '--http.port',
  '0',
  '--health.port',
  '0',
];
let processes: ServiceProcess[] = [];

describeIf(canRun, reason)('a yard in several processes', () => {
  beforeAll(async () => {
    const made = await temporaryFolder();
    cleanUp.push(made.remove);
    folder = made.path;
    postgres = await startPostgres();
    cleanUp.push(() => postgres.stop());
    const mosquitto = await startMosquitto(folder);
    cleanUp.push(() => mosquitto.stop());
    brokerUrl = mosquitto.url;
    const influxd = await startInfluxd(folder);
    cleanUp.push(() => influxd.stop());
    influxUrl = influxd.url;
    await influxd.execute('CREATE DATABASE yard');
    const address = await postgres.createDatabase();
    records = await openRecords({ kind: 'postgres', connectionString: address });
    cleanUp.push(() => records.close());
    series = await openPostgresSeries(openSeriesPool({ connectionString: address }));
    cleanUp.push(() => series.close());
    const influx = JSON.stringify({ url: influxUrl, version: '1', database: 'yard' });
    flags = [
      ...['--records.postgresUrl', address, '--series.postgresUrl', address, '--series.influx', influx],
      ...['--broker.externalUrl', brokerUrl, '--broker.sharedSessions', '4'],
      ...['--watch.outageMinutes', 'null'],
    ];
    const parts = ['ingest', 'ingest', 'series', 'rules,notify', 'web'];
    processes = await Promise.all(parts.map((only) => startServices(only, flags)));
  }, 180_000);
  afterAll(async () => {
    await Promise.all(processes.map((one) => one.stop('SIGKILL')));
    for (const undo of cleanUp.reverse()) await undo();
  }, 60_000);

  it('shares one subscription between its ingest processes: each stores a part, no reading twice', async () => {
    const ingests = processes.filter(({ only }) => only === 'ingest');
    await eventually(
      'each holds two of the four sessions',
      async () => {
        const held = (await records.leases.list()).filter(
          ({ name, holder }) => name.startsWith('ingest:') && holder,
        );
        const counts = [...Map.groupBy(held, ({ holder }) => holder).values()].map(({ length }) => length);
        return counts.length === 2 && counts.every((count) => count === 2);
      },
      60_000,
      100,
    );
    const yards = await furnishYards(records, 2, 4);
    const stream = await startStream(brokerUrl, yards, minutes, 50);
    cleanUp.push(stream.stop);
    await eventually('everything is acknowledged', () => stream.acknowledged() === stream.total, 60_000, 100);
    const isStored = async () => (await series.append([])).lastSequence === stream.total;
    await eventually('everything is stored', isStored, 60_000, 100);
    const told = await Promise.all(ingests.map((ingest) => ingest.metrics()));
    const stored = told.map((metrics) => metrics.get('tilth_ingest_readings_stored_total')!);
    expect(stored[0]! + stored[1]!).toBe(stream.total);
    for (const part of stored) expect(part, stored.join(' and ')).toBeGreaterThan(stream.total / 5);
    for (const metrics of told) expect(metrics.get('tilth_ingest_duplicates_total')).toBe(0);
  }, 180_000);

  it('forwards from PostgreSQL to InfluxDB, which then holds the same', async () => {
    const here = await totalsHere({ local: series });
    const count = async () =>
      Object.values(await totalsThere(influxUrl)).reduce((sum, one) => sum + one.count, 0);
    await eventually('InfluxDB has everything', async () => (await count()) === minutes * 8, 60_000, 200);
    expect(await totalsThere(influxUrl)).toEqual(here);
  }, 90_000);

  it('is known to the doctor: servers, copy before an upgrade, and a service that runs nowhere', async () => {
    const well = await runCommand('doctor', [...beside(), '--only', 'web']);
    for (const about of ['PostgreSQL', 'pg_dump', 'MQTT broker', 'InfluxDB', 'processes'])
      expect(well.text).toMatch(new RegExp(`^ok +${about}: `, 'm'));
    expect(well.text).toMatch(/processes: 5 alive: ingest 2, notify 1, rules 1, series 1, web 1/);
    const judges = processes.find(({ only }) => only === 'rules,notify')!;
    expect(await judges.stop()).toBe(0);
    const { text } = await runCommand('doctor', [...beside(), '--only', 'web']);
    expect(text).toMatch(/WARNING +processes: rules runs nowhere: no pile is judged[\s\S]*--only rules/);
    expect(text).toMatch(/WARNING +processes: notify runs nowhere/);
  }, 120_000);

  it('is exported while it runs, and comes back in an empty PostgreSQL', async () => {
    const to = join(folder, 'export');
    const out = await runCommand('exportYard', [...beside(), '--to', to]);
    expect(out.text).toMatch(new RegExp(`${minutes * 8} readings of 8 channels`));
    expect(out.code).toBe(0);
    const fresh = await postgres.createDatabase();
    const other = ['--records.postgresUrl', fresh, '--series.postgresUrl', fresh];
    const into = ['--from', to, '--dataFolder', join(folder, 'other'), ...other];
    const back = await runCommand('importYard', into);
    expect(back.text).toMatch(/Yard \d, Yard \d: 480 readings of 8 channels are in/);
    expect(back.code).toBe(0);
    const [theirs, theirSeries] = [
      await openRecords({ kind: 'postgres', connectionString: fresh }),
      await openPostgresSeries(openSeriesPool({ connectionString: fresh })),
    ];
    cleanUp.push(
      () => theirs.close(),
      () => theirSeries.close(),
    );
    expect(await totalsHere({ local: theirSeries })).toEqual(await totalsHere({ local: series }));
    const names = async (from: Records) => (await from.yards.list()).map(({ name }) => name).sort();
    expect(await names(theirs)).toEqual(await names(records));
    const again = await runCommand('importYard', [...into, '--dataFolder', join(folder, 'third')]);
    expect(again.text).toMatch(/readings are there already|not empty/);
    expect(again.code).not.toBe(0);
  }, 120_000);

  it('is backed up by pg_dump, as the backup command says', async () => {
    const { code, text } = await runCommand('backup', [...beside(), '--to', join(folder, 'backup')]);
    expect(code).not.toBe(0);
    expect(text).toMatch(/records and readings are in PostgreSQL[\s\S]*pg_dump --format=custom/);
    expect(await readdir(folder)).not.toContain('backup');
  }, 60_000);
});
