import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, rename, rm, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { type FileSum, sumOf, syncToDisk } from '../fileSums.ts';
import type { OnProgress } from '../progress.ts';
import { type BackupManifest, forwardFile, recordsFile, seriesFile, writeManifest } from './manifest.ts';
import { openSnapshot, type Snapshot } from './snapshot.ts';

export interface BackupOptions {
  readonly dataFolder: string;
  /** The records are in PostgreSQL, which backs itself up. */
  readonly recordsElsewhere: boolean;
  /** Must not exist yet, or be empty. */
  readonly to: string;
  readonly madeBy: string;
  readonly nowMs: number;
  readonly onProgress: OnProgress;
}

/**
 * Copies a yard's data folder, while the yard runs or not. The moments are taken in the order records, forwarding,
 * readings: cursors in the first two then never point beyond the readings, so nothing is passed over after a restore.
 * The folder appears under its name only when it is complete.
 * @throws Error in plain words when there is nothing to copy, no room, or the place is taken.
 */
export async function backUp(options: BackupOptions): Promise<BackupManifest> {
  const { dataFolder, to } = options;
  if (!existsSync(join(dataFolder, seriesFile)))
    throw new Error(`${dataFolder} holds no yard: see dataFolder.`);
  if (existsSync(to) && (await readdir(to)).length > 0)
    throw new Error(`${to} is not empty: give a folder of its own to each backup.`);
  const partial = `${to}.partial`;
  await rm(partial, { recursive: true, force: true });
  await mkdir(partial, { recursive: true, mode: 0o700 });
  const snapshots = new Map<string, Snapshot>();
  try {
    takeSnapshots(options, snapshots);
    await refuseWithoutRoom(snapshots, partial);
    const manifest = await copyAll(options, snapshots, partial);
    await writeManifest(partial, manifest);
    await rm(to, { recursive: true, force: true });
    await rename(partial, to);
    return manifest;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw error;
  } finally {
    for (const snapshot of snapshots.values()) snapshot.close();
  }
}

function takeSnapshots(
  { dataFolder, recordsElsewhere }: BackupOptions,
  snapshots: Map<string, Snapshot>,
): void {
  const wanted = [...(recordsElsewhere ? [] : [recordsFile]), forwardFile, seriesFile];
  for (const name of wanted) {
    const file = join(dataFolder, name);
    if (existsSync(file)) snapshots.set(name, openSnapshot(file));
  }
}

async function refuseWithoutRoom(snapshots: ReadonlyMap<string, Snapshot>, folder: string): Promise<void> {
  const size = 'SELECT page_count * page_size FROM pragma_page_count, pragma_page_size';
  const needed = [...snapshots.values()].reduce((sum, snapshot) => sum + Number(snapshot.ask(size)[0]), 0);
  const { bavail, bsize } = await statfs(folder);
  if (needed <= bavail * bsize) return;
  const megabytes = (bytes: number) => Math.ceil(bytes / 1e6);
  throw new Error(
    `The backup needs ${megabytes(needed)} MB; ${megabytes(bavail * bsize)} MB are free at ${folder}.`,
  );
}

async function copyAll(
  { dataFolder, madeBy, nowMs, onProgress }: BackupOptions,
  snapshots: ReadonlyMap<string, Snapshot>,
  folder: string,
): Promise<BackupManifest> {
  const files: FileSum[] = [];
  for (const [name, snapshot] of snapshots) {
    const path = join(folder, name);
    await snapshot.copyTo(path, (share) => onProgress(`copying ${name}`, share));
    files.push(await sumOf(path, name));
  }
  for (const name of await otherFiles(dataFolder)) {
    const path = join(folder, name);
    await copyFile(join(dataFolder, name), path);
    await syncToDisk(path);
    files.push(await sumOf(path, name));
  }
  return {
    ...{ what: 'Tilthwatch backup', layout: 1, madeBy, madeMs: nowMs, files },
    recordsSteps: stepsOf(snapshots.get(recordsFile)),
    seriesVersion: Number(snapshots.get(seriesFile)!.ask('PRAGMA user_version')[0]),
  };
}

function stepsOf(records: Snapshot | undefined): string[] | null {
  if (records === undefined) return null;
  const hasHistory = records.ask(`SELECT 1 FROM sqlite_schema WHERE name = 'records_migration'`).length > 0;
  return hasHistory ? records.ask('SELECT name FROM records_migration ORDER BY name').map(String) : [];
}

/** Small files beside the databases, such as the keys for messages to browsers. */
async function otherFiles(dataFolder: string): Promise<string[]> {
  const entries = await readdir(dataFolder, { withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && /^[\w.-]+$/.test(entry.name))
    .map(({ name }) => name)
    .filter((name) => !/\.sqlite(-wal|-shm|-journal)?$|\.(backup|dump|partial)$/.test(name));
}
