import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { runCommand } from './commandFailure.ts';
import { readCommandLine } from './commandLine.ts';
import { loadConfiguration } from './configuration/load.ts';
import type { Configuration } from './configuration/schema.ts';
import { createLogger } from './logger.ts';
import { recordsFile, seriesFile } from './operate/backup/manifest.ts';
import { needed, takeWords } from './operate/commandWords.ts';
import { checkExport, importYard } from './operate/export/importYard.ts';
import { showProgress } from './operate/progress.ts';
import { allMigrations } from './records/migrations/all.ts';
import { openRecords, type RecordsOptions } from './records/openRecords.ts';
import type { Records } from './records/port.ts';
import { openTransfer } from './records/transfer/openTransfer.ts';
import { openPostgresSeries, openSeriesPool } from './series/openPostgresSeries.ts';
import { openSqliteSeries } from './series/openSqliteSeries.ts';
import type { SeriesStore } from './series/port.ts';
import { makeLink } from './web/sign-in/links.ts';

const usage = `Usage: npm run import -- --from FOLDER [--config FILE] [--dataFolder FOLDER]

  Brings an export into an empty data folder.`;

/** Brings an export into an empty data folder. */
async function main(): Promise<void> {
  const words = takeWords(process.argv.slice(2), { values: ['from'], switches: [] });
  const { file, help, flags } = readCommandLine(words.rest);
  if (help) return console.log(usage);
  const from = resolve(needed(words, 'from', usage));
  const configuration = loadConfiguration({ file, environment: process.env, flags });
  const { dataFolder } = configuration;
  const onProgress = showProgress(process.stdout);
  const knownSteps = Object.keys(allMigrations);
  await checkExport(from, knownSteps, () => {});
  if (existsSync(dataFolder) && readdirSync(dataFolder).length > 0)
    throw new Error(`${dataFolder} is not empty: an export is imported into an empty data folder only.`);
  mkdirSync(dataFolder, { recursive: true, mode: 0o700 });
  const logger = createLogger('warn');
  const options = recordsOptions(configuration);
  const records = await openRecords(options, logger);
  const transfer = openTransfer(options, logger);
  const series = await openEmptySeries(configuration);
  try {
    const { manifest, readings } = await importYard({
      ...{ from, records: transfer, marks: records.marks, series, knownSteps, onProgress },
    });
    console.log(
      `${manifest.yards.join(', ')}: ${readings} readings of ${manifest.channels.length} channels are in.`,
    );
    await printNextSteps(records, configuration);
  } finally {
    await series.close();
    await transfer.close();
    await records.close();
  }
}

function recordsOptions({ dataFolder, records }: Configuration): RecordsOptions {
  return records.postgresUrl === null
    ? { kind: 'sqlite', file: join(dataFolder, recordsFile) }
    : { kind: 'postgres', connectionString: records.postgresUrl };
}

/** Rejects where readings are already: an import goes into an empty store only. */
async function openEmptySeries({ dataFolder, series }: Configuration): Promise<SeriesStore> {
  if (series.postgresUrl === null) return openSqliteSeries({ file: join(dataFolder, seriesFile) });
  const opened = await openPostgresSeries(openSeriesPool({ connectionString: series.postgresUrl }));
  if ((await opened.channels()).length === 0) return opened;
  await opened.close();
  throw new Error(
    'series.postgresUrl: readings are there already; an export is imported into an empty database only.',
  );
}

async function printNextSteps(records: Records, { http }: Configuration): Promise<void> {
  const scheme = http.tls === null ? 'http' : 'https';
  const publicUrl = http.publicUrl?.replace(/\/+$/, '') ?? `${scheme}://${http.host}:${http.port}`;
  console.log(`
What to do next:
  - Stop the old yard, or both will text people.
  - npm start, then open the link of each owner once, within a day, to choose a password:`);
  for (const yard of await records.yards.list())
    for (const person of await records.people.list(yard.id)) {
      if (person.role !== 'owner' || person.disabled) continue;
      const { url } = await makeLink(records, 'set-password', person.id, Date.now(), publicUrl);
      console.log(`      ${person.name}: ${url}`);
    }
  console.log(`  - Owners give the others such links under Manage, People, and each probe a new secret under Manage, Probes.
  - Wall screens need new links. Texts that were unsent in the old yard are not sent by this one.`);
}

runCommand(main);
