import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { systemClock } from './clock.ts';
import { runCommand } from './commandFailure.ts';
import { readCommandLine } from './commandLine.ts';
import { loadConfiguration } from './configuration/load.ts';
import type { Configuration } from './configuration/schema.ts';
import { createLogger } from './logger.ts';
import { recordsFile } from './operate/backup/manifest.ts';
import { openSnapshot } from './operate/backup/snapshot.ts';
import { needed, takeWords } from './operate/commandWords.ts';
import { exportYard } from './operate/export/exportYard.ts';
import { showProgress } from './operate/progress.ts';
import { programVersion } from './programVersion.ts';
import type { RecordsOptions } from './records/openRecords.ts';
import { openTransfer } from './records/transfer/openTransfer.ts';
import { openSeriesToRead } from './series/openSeries.ts';

const usage = `Usage: npm run export -- --to FOLDER [--config FILE] [--dataFolder FOLDER]

  Writes everything the yard owns in open formats (CSV, SenML, JSON), while it runs or not.`;

/** Writes everything a yard owns in open formats, while it runs or not. */
async function main(): Promise<void> {
  const words = takeWords(process.argv.slice(2), { values: ['to'], switches: [] });
  const { file, help, flags } = readCommandLine(words.rest);
  if (help) return console.log(usage);
  const to = resolve(needed(words, 'to', usage));
  const configuration = loadConfiguration({ file, environment: process.env, flags });
  const logger = createLogger('warn');
  const scratch = mkdtempSync(join(tmpdir(), 'tilthwatch-export-'));
  const records = openTransfer(await recordsAtOneMoment(configuration, scratch), logger);
  const { dataFolder: folder } = configuration;
  const { influx, postgresUrl } = configuration.series;
  const series = await openSeriesToRead({ folder, influx, postgresUrl, clock: systemClock, logger });
  try {
    const manifest = await exportYard({
      ...{ records, series, to, madeBy: programVersion, nowMs: Date.now() },
      onProgress: showProgress(process.stdout),
    });
    const readings = manifest.channels.reduce((sum, channel) => sum + channel.readings, 0);
    const rows = Object.values(manifest.tables).reduce((sum, count) => sum + count, 0);
    console.log(
      `The export is in ${to}: ${readings} readings of ${manifest.channels.length} channels, ${rows} rows.`,
    );
    console.log(`Left out on purpose:\n${manifest.leftOut.map((what) => `  - ${what}`).join('\n')}`);
  } finally {
    await series.close();
    await records.close();
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** An SQLite file is copied first: reading it page by page would otherwise hold up the yard that writes to it. */
async function recordsAtOneMoment(
  { dataFolder, records }: Configuration,
  scratch: string,
): Promise<RecordsOptions> {
  if (records.postgresUrl !== null) return { kind: 'postgres', connectionString: records.postgresUrl };
  const snapshot = openSnapshot(join(dataFolder, recordsFile));
  const copy = join(scratch, recordsFile);
  await snapshot.copyTo(copy, () => {});
  snapshot.close();
  return { kind: 'sqlite', file: copy };
}

runCommand(main);
