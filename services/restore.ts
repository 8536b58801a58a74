import { resolve } from 'node:path';
import { runCommand } from './commandFailure.ts';
import { readCommandLine } from './commandLine.ts';
import { loadConfiguration } from './configuration/load.ts';
import { restore } from './operate/backup/restore.ts';
import { needed, takeWords } from './operate/commandWords.ts';
import { showProgress } from './operate/progress.ts';
import { allMigrations } from './records/migrations/all.ts';
import { seriesFileVersion } from './series/sqlite/database.ts';

const usage = `Usage: npm run restore -- --from FOLDER [--replace] [--config FILE] [--dataFolder FOLDER]

  Puts a backup into the data folder of a yard that is stopped. With --replace what is there is put aside first.`;

/** Puts a backup in place of a stopped yard's data folder. */
async function main(): Promise<void> {
  const words = takeWords(process.argv.slice(2), { values: ['from'], switches: ['replace'] });
  const { file, help, flags } = readCommandLine(words.rest);
  if (help) return console.log(usage);
  const from = resolve(needed(words, 'from', usage));
  const { dataFolder } = loadConfiguration({ file, environment: process.env, flags });
  const { manifest, putAside } = await restore({
    ...{ from, dataFolder, replace: words.switches.has('replace') },
    ...{ knownSteps: Object.keys(allMigrations), knownSeriesVersion: seriesFileVersion },
    ...{ nowMs: Date.now(), onProgress: showProgress(process.stdout) },
  });
  console.log(`The backup of ${new Date(manifest.madeMs).toISOString()} is in place in ${dataFolder}.`);
  if (putAside !== null) console.log(`What was there is in ${putAside}.`);
  if (manifest.recordsSteps === null)
    console.log('Its records are in PostgreSQL: get them back from your pg_dump with pg_restore.');
  console.log(`
Before you start it: a text that waited when the backup was made and went out afterwards will go out once more, unless it
has expired. Readings since then are gone here; probes that still keep them will send them again.`);
}

runCommand(main);
