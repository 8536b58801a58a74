import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { fileSumSchema, syncToDisk } from '../fileSums.ts';
import { readManifestFile } from '../readManifestFile.ts';

export const recordsFile = 'records.sqlite';
export const seriesFile = 'series.sqlite';
export const forwardFile = 'forward.sqlite';
const manifestFile = 'backup.json';

const manifestSchema = z.strictObject({
  what: z.literal('Tilthwatch backup'),
  layout: z.literal(1),
  madeBy: z.string(),
  madeMs: z.int(),
  /** Steps of the records' schema; null when the records are in PostgreSQL and not in this backup. */
  recordsSteps: z.array(z.string()).nullable(),
  seriesVersion: z.int(),
  files: z.array(fileSumSchema),
});
export type BackupManifest = z.infer<typeof manifestSchema>;

/** Written last: a folder without it is no backup. */
export async function writeManifest(folder: string, manifest: BackupManifest): Promise<void> {
  const path = join(folder, manifestFile);
  await writeFile(path, `${JSON.stringify(manifest, null, 2)}\n`);
  await syncToDisk(path);
}

/** @throws Error when the folder holds no backup this program can read. */
export function readManifest(folder: string): Promise<BackupManifest> {
  return readManifestFile(folder, manifestFile, 'backup', manifestSchema);
}
