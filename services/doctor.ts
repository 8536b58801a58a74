import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runCommand } from './commandFailure.ts';
import { readCommandLine } from './commandLine.ts';
import { ConfigurationError, loadConfiguration } from './configuration/load.ts';
import type { Configuration } from './configuration/schema.ts';
import { isShared, runs } from './configuration/services.ts';
import { createLogger } from './logger.ts';
import { recordsFile, seriesFile } from './operate/backup/manifest.ts';
import { certificateFindings } from './operate/doctor/certificates.ts';
import {
  bad,
  type Finding,
  good,
  type Look,
  reportText,
  runLooks,
  warning,
} from './operate/doctor/finding.ts';
import {
  clockFindings,
  dataFolderFindings,
  newestFileMs,
  nodeFindings,
  type OtherClock,
} from './operate/doctor/machine.ts';
import { type Place, portFinding, reachFinding } from './operate/doctor/network.ts';
import { processFindings } from './operate/doctor/processes.ts';
import { readinessAt, readinessFindings } from './operate/doctor/runningYard.ts';
import {
  brokerFinding,
  httpClock,
  modemFinding,
  postgresDumpFinding,
  postgresFindings,
  publicUrlFinding,
} from './operate/doctor/servers.ts';
import { messageFindings, probeFindings } from './operate/doctor/yard.ts';
import { programVersion } from './programVersion.ts';
import { allMigrations } from './records/migrations/all.ts';
import { openRecords, type RecordsOptions } from './records/openRecords.ts';
import { openTransfer } from './records/transfer/openTransfer.ts';
import { ArchiveFault } from './series/archive.ts';
import { stateText } from './series/forward/status.ts';
import { openInfluxArchive } from './series/influx/openArchive.ts';
import { openPostgresSeries, openSeriesPool } from './series/openPostgresSeries.ts';
import { openSqliteSeries } from './series/openSqliteSeries.ts';

const usage = `Usage: npm run doctor -- [--config FILE] [--FIELD VALUE ...]

  Looks at everything a yard needs and says what to do. Sends no text and changes nothing. Exit code 1: something is bad.`;

/** Looks at everything a yard needs, and says in plain words what to do. */
async function main(): Promise<void> {
  const { file, help, flags } = readCommandLine(process.argv.slice(2));
  if (help) return console.log(usage);
  let configuration: Configuration;
  try {
    configuration = loadConfiguration({ file, environment: process.env, flags });
  } catch (error) {
    if (!(error instanceof ConfigurationError)) throw error;
    return report([
      bad('configuration', error.message, 'Correct it; every field is listed by npm start -- --help.'),
    ]);
  }
  const from = file === null ? 'its defaults, environment and flags' : file;
  const first = [good('Tilthwatch', programVersion), ...nodeFindings(process.versions.node)];
  report([
    ...first,
    good('configuration', `${from} can be used`),
    ...(await runLooks(looksOf(configuration))),
  ]);
}

function report(findings: readonly Finding[]): void {
  console.log(reportText(findings));
  if (findings.some(({ state }) => state === 'bad')) process.exitCode = 1;
}

function looksOf(configuration: Configuration): Look[] {
  const { dataFolder } = configuration;
  const clocks: OtherClock[] = [];
  return [
    { about: 'data folder', run: () => dataFolderFindings(dataFolder) },
    { about: 'ports', run: () => ownPorts(configuration) },
    ...certificates(configuration),
    ...servers(configuration, clocks),
    { about: 'clock', run: () => clock(dataFolder, clocks) },
    { about: 'yard', run: () => yard(configuration) },
  ];
}

async function ownPorts(configuration: Configuration): Promise<Finding[]> {
  const { http, health, broker } = configuration;
  const door = runs(configuration, 'web')
    ? {
        ...{ about: 'port of the screens', host: http.host, port: http.port, field: 'http.port' },
        tls: http.tls !== null,
      }
    : { ...{ about: 'port of this process’s health', ...health, field: 'health.port' }, tls: false };
  const answer = await readinessAt(door.host, door.port, door.tls);
  const isOurs = answer !== null;
  const findings = isOurs ? readinessFindings(answer) : [good('running yard', 'none runs here just now')];
  findings.push(await portFinding(door, isOurs));
  if (!runs(configuration, 'broker')) return findings;
  findings.push(
    await portFinding({ about: 'port of the MQTT broker', ...broker, field: 'broker.port' }, isOurs),
  );
  if (broker.webSocketPort === null) return findings;
  const webSocket = { host: broker.host, port: broker.webSocketPort, field: 'broker.webSocketPort' };
  return [...findings, await portFinding({ about: 'port of MQTT over WebSocket', ...webSocket }, isOurs)];
}

function certificates({ http, broker }: Configuration): Look[] {
  const { externalCaFile, externalCertificateFile, externalKeyFile } = broker;
  const files = [
    http.tls && { about: 'the screens (http.tls)', ...http.tls },
    broker.tls && { about: 'the MQTT broker (broker.tls)', ...broker.tls },
    externalCaFile && { about: 'your broker’s authority', certificateFile: externalCaFile, keyFile: null },
    externalCertificateFile && {
      ...{ about: 'ours at your broker', certificateFile: externalCertificateFile, keyFile: externalKeyFile },
    },
  ].filter((one) => one !== null && one !== '');
  return files.map((one) => ({ about: one.about, run: () => certificateFindings(one, Date.now()) }));
}

/** Servers the yard needs; what they say of the time is gathered for the look at the clock. */
function servers(configuration: Configuration, clocks: OtherClock[]): Look[] {
  const { broker, series, records, http } = configuration;
  const looks: Look[] = places(configuration).map((place) => ({
    about: place.about,
    run: async () => [await reachFinding(place)],
  }));
  if (broker.externalUrl !== null)
    looks.push({ about: 'MQTT broker', run: async () => [await externalBroker(broker)] });
  const { influx } = series;
  if (influx !== null) looks.push({ about: 'InfluxDB', run: () => influxFindings(influx, clocks) });
  for (const postgresUrl of new Set([records.postgresUrl, series.postgresUrl]))
    if (postgresUrl !== null)
      looks.push({
        about: 'PostgreSQL',
        run: async () => {
          const asked = await postgresFindings(postgresUrl, Date.now);
          clocks.push(...asked.clocks);
          const isDumped = postgresUrl === records.postgresUrl && records.postgresBackup === 'dump';
          return [...asked.findings, ...(isDumped ? [await postgresDumpFinding(asked.major)] : [])];
        },
      });
  const { publicUrl } = http;
  if (publicUrl !== null)
    looks.push({ about: 'public address', run: async () => [await publicUrlFinding(publicUrl)] });
  const port = configuration.modem?.port;
  if (port?.startsWith('/')) looks.push({ about: 'GSM modem', run: async () => [await modemFinding(port)] });
  return looks;
}

/** Knocked at and not spoken to, so that no text goes out. */
function places({ sms, email, modem }: Configuration): Place[] {
  const found: Place[] = [];
  if (sms !== null) {
    const { hostname, protocol, port } = new URL(sms.url);
    const tls = protocol === 'https:' ? { ca: null } : null;
    const number = port === '' ? (tls === null ? 80 : 443) : Number(port);
    found.push({ about: 'SMS gateway', host: bare(hostname), port: number, tls, field: 'sms.url' });
  }
  if (email !== null) {
    const tls = email.security === 'tls' ? { ca: email.caFile && readFileSync(email.caFile, 'utf8') } : null;
    found.push({ about: 'mail server', host: email.host, port: email.port, tls, field: 'email.host' });
  }
  const overNetwork = /^tcp:\/\/(.+):(\d+)$/.exec(modem?.port ?? '');
  if (overNetwork)
    found.push({
      ...{ about: 'GSM modem', host: bare(overNetwork[1]!), port: Number(overNetwork[2]), tls: null },
      field: 'modem.port',
    });
  return found;
}

/** IPv6 addresses stand in brackets in an address and without them elsewhere. */
const bare = (host: string): string => host.replace(/^\[(.*)\]$/, '$1');

function externalBroker(broker: Configuration['broker']): Promise<Finding> {
  const { externalUser, externalPassword, externalCaFile, externalCertificateFile, externalKeyFile } = broker;
  return brokerFinding(broker.externalUrl!, {
    protocolVersion: broker.externalProtocol === '5' ? 5 : 4,
    ...(externalUser !== null && { username: externalUser }),
    ...(externalPassword !== null && { password: externalPassword }),
    ...(externalCaFile !== null && { ca: readFileSync(externalCaFile) }),
    ...(externalCertificateFile !== null && { cert: readFileSync(externalCertificateFile) }),
    ...(externalKeyFile !== null && { key: readFileSync(externalKeyFile) }),
  });
}

async function influxFindings(
  influx: NonNullable<Configuration['series']['influx']>,
  clocks: OtherClock[],
): Promise<Finding[]> {
  const theirs = await httpClock('InfluxDB', new URL('/ping', influx.url).href, Date.now);
  if (theirs !== null) clocks.push(theirs);
  try {
    await openInfluxArchive(influx).holdsReadings();
    return [good('InfluxDB', 'it lets us in and answers')];
  } catch (error) {
    const fault = error instanceof ArchiveFault ? stateText(error.kind, error.message) : String(error);
    return [warning('InfluxDB', fault, 'Readings are kept here meanwhile and forwarded later.')];
  }
}

async function clock(dataFolder: string, clocks: readonly OtherClock[]): Promise<Finding[]> {
  const program = fileURLToPath(new URL('..', import.meta.url));
  return clockFindings(Date.now(), await newestFileMs([dataFolder, program]), clocks);
}

/** What the yard itself holds. Its schema is never changed by looking. */
async function yard(configuration: Configuration): Promise<Finding[]> {
  const { dataFolder, records, sms, modem } = configuration;
  const logger = createLogger('silent');
  const file = join(dataFolder, recordsFile);
  if (records.postgresUrl === null && !existsSync(file))
    return [good('yard', 'none is set up yet: npm start')];
  const options: RecordsOptions =
    records.postgresUrl === null
      ? { kind: 'sqlite', file }
      : { kind: 'postgres', connectionString: records.postgresUrl };
  const transfer = openTransfer(options, logger);
  const steps = await transfer.steps().finally(() => transfer.close());
  const known = Object.keys(allMigrations);
  if (steps.some((step) => !known.includes(step)))
    return [
      bad(
        'records',
        'a newer version of Tilthwatch wrote them',
        'Install that version, or restore a backup.',
      ),
    ];
  if (steps.length === 0) return [good('yard', 'none is set up yet: npm start')];
  if (steps.length < known.length)
    return [
      warning('records', 'of an older version', 'The next start brings them forward; make a backup first.'),
    ];
  const opened = await openRecords(options, logger);
  try {
    const canText = sms !== null || modem !== null;
    return [
      ...(await messageFindings(opened, Date.now(), canText)),
      ...(await probes(configuration, opened)),
      ...(isShared(configuration) ? await processFindings(opened.processes) : []),
    ];
  } finally {
    await opened.close();
  }
}

async function probes(
  { dataFolder, series: { postgresUrl } }: Configuration,
  records: Parameters<typeof probeFindings>[0],
): Promise<Finding[]> {
  if (postgresUrl !== null) {
    const shared = await openPostgresSeries(openSeriesPool({ connectionString: postgresUrl }));
    return probeFindings(records, shared, Date.now()).finally(() => shared.close());
  }
  const file = join(dataFolder, seriesFile);
  if (!existsSync(file))
    return [warning('readings', `${file} is not there`, 'See dataFolder; else restore a backup.')];
  const series = await openSqliteSeries({ file });
  return probeFindings(records, series, Date.now()).finally(() => series.close());
}

runCommand(main);
