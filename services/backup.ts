import { resolve } from 'node:path';
import { runCommand } from './commandFailure.ts';
import { readCommandLine } from './commandLine.ts';
import { loadConfiguration } from './configuration/load.ts';
import { backUp } from './operate/backup/backUp.ts';
import { needed, takeWords } from './operate/commandWords.ts';
import { showProgress } from './operate/progress.ts';
import { programVersion } from './programVersion.ts';

const usage = `Usage: npm run backup -- --to FOLDER [--config FILE] [--dataFolder FOLDER]

  Copies the yard into a new folder, while it runs or not. Keep backups on another disk: they hold phone numbers and
  password hashes. Get one back with npm run restore.`;

/** Also when records are in one database and readings in another: the readings last, so that no cursor points beyond them. */
const allElsewhere = `records and readings are in PostgreSQL, and nothing of them is in the data folder to copy. Copy them with
  pg_dump --format=custom --file=yard.dump "$TILTH_RECORDS__POSTGRESURL"
and, where series.postgresUrl is another database, that one AFTER it; get them back with pg_restore.`;

/** Copies the yard's data folder, while the yard runs or not. */
async function main(): Promise<void> {
  const words = takeWords(process.argv.slice(2), { values: ['to'], switches: [] });
  const { file, help, flags } = readCommandLine(words.rest);
  if (help) return console.log(usage);
  const to = resolve(needed(words, 'to', usage));
  const { dataFolder, records, series } = loadConfiguration({ file, environment: process.env, flags });
  const recordsElsewhere = records.postgresUrl !== null;
  if (series.postgresUrl !== null) throw new Error(allElsewhere);
  const manifest = await backUp({
    ...{ dataFolder, recordsElsewhere, to, madeBy: programVersion, nowMs: Date.now() },
    onProgress: showProgress(process.stdout),
  });
  const bytes = manifest.files.reduce((sum, one) => sum + one.bytes, 0);
  console.log(`The backup is in ${to}: ${manifest.files.length} files, ${(bytes / 1e6).toFixed(1)} MB.`);
  if (!recordsElsewhere) return;
  console.log(`
The records (piles, people, alarms, messages) are in PostgreSQL and not in this backup. Copy them with
  pg_dump --format=custom --file=records.dump "$TILTH_RECORDS__POSTGRESURL"
BEFORE you make this backup, so that no cursor in them points beyond its readings; get them back with pg_restore.`);
}

runCommand(main);
