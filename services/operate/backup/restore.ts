import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, rename } from 'node:fs/promises';
import { isAbsolute, join, relative, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { sumProblem, syncToDisk } from '../fileSums.ts';
import type { OnProgress } from '../progress.ts';
import { type BackupManifest, readManifest, recordsFile, seriesFile } from './manifest.ts';

export interface RestoreOptions {
  readonly from: string;
  readonly dataFolder: string;
  /** Put what is in the data folder aside; without it a yard that is there stays. */
  readonly replace: boolean;
  /** Steps of the records' schema and version of the readings' file this program knows. */
  readonly knownSteps: readonly string[];
  readonly knownSeriesVersion: number;
  readonly nowMs: number;
  readonly onProgress: OnProgress;
}

export interface RestoreResult {
  readonly manifest: BackupManifest;
  /** Where what was in the data folder is now; null when it was empty. */
  readonly putAside: string | null;
}

/**
 * Puts a backup in place. Everything is checked before anything is touched, and what was there is put aside, not removed.
 * @throws Error in plain words: no backup, damaged, of a newer version, a yard is there or running.
 */
export async function restore(options: RestoreOptions): Promise<RestoreResult> {
  const { from, dataFolder, onProgress } = options;
  if (isWithin(from, dataFolder))
    throw new Error(`${from} lies in the data folder itself: move the backup out of it first.`);
  const manifest = await readManifest(from);
  refuseNewer(manifest, options);
  await refuseDamaged(from, manifest, onProgress);
  await mkdir(dataFolder, { recursive: true, mode: 0o700 });
  refuseRunning(dataFolder);
  const putAside = await makeRoom(options);
  for (const [index, { name }] of manifest.files.entries()) {
    await copyFile(join(from, name), join(dataFolder, name));
    await syncToDisk(join(dataFolder, name));
    onProgress('copying', (index + 1) / manifest.files.length);
  }
  return { manifest, putAside };
}

function isWithin(path: string, folder: string): boolean {
  const way = relative(resolve(folder), resolve(path));
  return way === '' || !(way.startsWith('..') || isAbsolute(way));
}

function refuseNewer(manifest: BackupManifest, { knownSteps, knownSeriesVersion }: RestoreOptions): void {
  const unknown = (manifest.recordsSteps ?? []).filter((step) => !knownSteps.includes(step));
  if (unknown.length === 0 && manifest.seriesVersion <= knownSeriesVersion) return;
  throw new Error(
    `The backup was made by a newer version (${manifest.madeBy}) than this one: install that or a later version first.`,
  );
}

async function refuseDamaged(from: string, { files }: BackupManifest, onProgress: OnProgress): Promise<void> {
  for (const [index, file] of files.entries()) {
    const problem = await sumProblem(join(from, file.name), file);
    if (problem !== null) throw new Error(`The backup cannot be used: ${problem}. Take another one.`);
    onProgress('checking the backup', (index + 1) / files.length);
  }
}

function refuseRunning(dataFolder: string): void {
  for (const name of [recordsFile, seriesFile]) {
    const file = join(dataFolder, name);
    if (existsSync(file) && isInUse(file))
      throw new Error(`A yard is running on ${dataFolder}: stop it first.`);
  }
}

/** Leaving the write-ahead log needs the file for oneself: it fails while any other program has it open. */
function isInUse(file: string): boolean {
  const database = new DatabaseSync(file, { timeout: 500 });
  try {
    database.exec('PRAGMA journal_mode = DELETE');
    return false;
  } catch (error) {
    if (error instanceof Error && /locked|busy/.test(error.message)) return true;
    // Damaged or no database at all: a reason more to restore, and nobody has it open as one.
    return false;
  } finally {
    database.close();
  }
}

async function makeRoom({ dataFolder, replace, nowMs }: RestoreOptions): Promise<string | null> {
  const found = (await readdir(dataFolder)).filter((name) => !name.startsWith('replaced-'));
  if (found.length === 0) return null;
  if (!replace)
    throw new Error(
      `${dataFolder} is not empty. With --replace what is there is put aside (not removed) and the backup takes its place.`,
    );
  const putAside = join(dataFolder, `replaced-${new Date(nowMs).toISOString().replaceAll(':', '-')}`);
  await mkdir(putAside, { mode: 0o700 });
  for (const name of found) await rename(join(dataFolder, name), join(putAside, name));
  return putAside;
}
