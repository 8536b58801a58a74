import { existsSync } from 'node:fs';
import { mkdir, open, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Quantity } from '../../../shared/yard/yard.ts';
import type { OpenRow, RecordsTransfer } from '../../records/port.ts';
import type { SeriesStore } from '../../series/port.ts';
import { type FileSum, sumOf } from '../fileSums.ts';
import type { OnProgress } from '../progress.ts';
import { explanation } from './explanation.ts';
import { exportSeries } from './exportSeries.ts';
import { type ExportManifest, manifestFile } from './manifest.ts';

export interface ExportOptions {
  readonly records: RecordsTransfer;
  readonly series: Pick<SeriesStore, 'channels' | 'range' | 'rollups'>;
  /** Must not exist yet, or be empty. */
  readonly to: string;
  readonly madeBy: string;
  readonly nowMs: number;
  readonly onProgress: OnProgress;
}

/**
 * Writes everything a yard owns in open formats. The folder appears under its name only when it is complete.
 * @throws Error when the place is taken, else what a store or the disk says.
 */
export async function exportYard(options: ExportOptions): Promise<ExportManifest> {
  const { to } = options;
  if (existsSync(to) && (await readdir(to)).length > 0)
    throw new Error(`${to} is not empty: give the export a folder of its own.`);
  const partial = `${to}.partial`;
  await rm(partial, { recursive: true, force: true });
  await mkdir(partial, { recursive: true, mode: 0o700 });
  try {
    const manifest = await writeAll(options, partial);
    await writeFile(join(partial, manifestFile), `${JSON.stringify(manifest, null, 2)}\n`);
    await rm(to, { recursive: true, force: true });
    await rename(partial, to);
    return manifest;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw error;
  }
}

async function writeAll(options: ExportOptions, folder: string): Promise<ExportManifest> {
  const { records, series, madeBy, nowMs, onProgress } = options;
  const quantities = new Map<string, Quantity>();
  const yards: string[] = [];
  const tables = await writeTables(records, folder, (table, row) => {
    if (table === 'placements') quantities.set(String(row.channel), row.quantity as Quantity);
    if (table === 'yards') yards.push(String(row.name));
  });
  onProgress('writing records', 1);
  const quantityOf = (channel: string) => quantities.get(channel) ?? null;
  const channels = await exportSeries({ series, folder, quantityOf, nowMs, onProgress });
  await writeFile(join(folder, 'README.txt'), explanation);
  return {
    ...{ what: 'Tilthwatch export', layout: 1, madeBy, madeMs: nowMs, yards, channels },
    recordsSteps: await records.steps(),
    tables: Object.fromEntries(tables),
    leftOut: [...records.leftOut],
    files: await sumsOf(folder, onProgress),
  };
}

/** One JSON object a line: a million rows can be written and read without holding them. */
async function writeTables(
  records: RecordsTransfer,
  folder: string,
  onRow: (table: string, row: OpenRow) => void,
): Promise<Map<string, number>> {
  await mkdir(join(folder, 'records'));
  await mkdir(join(folder, 'photos'));
  const counts = new Map(records.tables.map((table) => [table, 0]));
  for (const table of records.tables) await writeFile(join(folder, tableFile(table)), '');
  await records.readAll(async (table, rows) => {
    for (const row of rows) onRow(table, row);
    const file = await open(join(folder, tableFile(table)), 'a');
    await file.write(rows.map((row) => `${JSON.stringify(row)}\n`).join(''));
    await file.close();
    if (table === 'journalPhotos') for (const row of rows) await writePhoto(folder, row);
    counts.set(table, counts.get(table)! + rows.length);
  });
  return counts;
}

/** For looking at; an import reads the table. */
async function writePhoto(folder: string, { entryId, jpeg }: OpenRow): Promise<void> {
  await writeFile(join(folder, 'photos', `${entryId}.jpg`), Buffer.from(String(jpeg), 'base64'));
}

/** Where the rows of a table are. */
export function tableFile(table: string): string {
  return `records/${table}.json`;
}

async function sumsOf(folder: string, onProgress: OnProgress): Promise<FileSum[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const names = entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();
  const sums: FileSum[] = [];
  for (const [index, name] of names.entries()) {
    sums.push(await sumOf(join(folder, name), name));
    onProgress('adding up', (index + 1) / names.length);
  }
  return sums;
}
