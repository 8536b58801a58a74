import { createReadStream, existsSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import type { MarkStore, OpenRow, RecordsTransfer } from '../../records/port.ts';
import type { SeriesStore } from '../../series/port.ts';
import { sumProblem } from '../fileSums.ts';
import type { OnProgress } from '../progress.ts';
import { tableFile } from './exportYard.ts';
import { type ExportManifest, readExportManifest } from './manifest.ts';
import { readReadings } from './readingsCsv.ts';

const rowsAtOnce = 1_000;
/** Rows with photos are long: so many characters are held at once. */
const charactersAtOnce = 8_000_000;
const readingsAtOnce = 5_000;

export interface ImportOptions {
  readonly from: string;
  readonly records: RecordsTransfer;
  readonly marks: Pick<MarkStore, 'set'>;
  readonly series: Pick<SeriesStore, 'append' | 'channels'>;
  /** Steps of the records' schema this program knows. */
  readonly knownSteps: readonly string[];
  readonly onProgress: OnProgress;
}

export interface ImportResult {
  readonly manifest: ExportManifest;
  readonly readings: number;
}

/** Reads and checks an export before anything is opened or made. */
export async function checkExport(
  from: string,
  knownSteps: readonly string[],
  onProgress: OnProgress,
): Promise<ExportManifest> {
  const manifest = await readExportManifest(from);
  if (manifest.recordsSteps.some((step) => !knownSteps.includes(step)))
    throw new Error(
      `The export was made by a newer version (${manifest.madeBy}) than this one: install that first.`,
    );
  for (const [index, file] of manifest.files.entries()) {
    const problem = await sumProblem(join(from, file.name), file);
    if (problem !== null) throw new Error(`The export cannot be used: ${problem}.`);
    onProgress('checking the export', (index + 1) / manifest.files.length);
  }
  return manifest;
}

/**
 * Brings an export into an empty yard: records in one transaction, then readings. Judgement begins behind the last
 * reading, so that nobody is texted about the past; what was unsent stays unsent.
 * @throws Error when the yard is not empty, the export is damaged or newer, or what arrived is not what was sent.
 */
export async function importYard(options: ImportOptions): Promise<ImportResult> {
  const { from, records, series, onProgress } = options;
  const manifest = await checkExport(from, options.knownSteps, onProgress);
  if (!(await records.isEmpty()) || (await series.channels()).length > 0)
    throw new Error('There is a yard here already: an export is imported into an empty data folder only.');
  const counts = await records.writeAll((table) => rowsOf(join(from, tableFile(table))));
  for (const [table, count] of counts) expectSame(`rows of ${table}`, count, manifest.tables[table] ?? 0);
  onProgress('reading records', 1);
  const { readings, lastSequence } = await importReadings(options, manifest);
  await options.marks.set('rules:cursor', String(lastSequence));
  return { manifest, readings };
}

async function importReadings({ from, series, onProgress }: ImportOptions, { channels }: ExportManifest) {
  const total = channels.reduce((sum, { readings }) => sum + readings, 0);
  let done = 0;
  let lastSequence = 0;
  for (const { channel, file, readings } of channels) {
    let stored = 0;
    for await (const group of readReadings(join(from, file), channel, readingsAtOnce)) {
      const result = await series.append(group);
      stored += result.stored;
      lastSequence = result.lastSequence;
      onProgress('reading readings', Math.min(0.999, (done + stored) / Math.max(1, total)));
    }
    expectSame(`readings of ${channel}`, stored, readings);
    done += stored;
  }
  onProgress('reading readings', 1);
  return { readings: done, lastSequence };
}

/** A table an older export did not have yet is empty. */
async function* rowsOf(path: string): AsyncGenerator<readonly OpenRow[]> {
  if (!existsSync(path)) return;
  let page: OpenRow[] = [];
  let characters = 0;
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Infinity })) {
    page.push(JSON.parse(line) as OpenRow);
    characters += line.length;
    if (page.length < rowsAtOnce && characters < charactersAtOnce) continue;
    yield page;
    page = [];
    characters = 0;
  }
  if (page.length > 0) yield page;
}

function expectSame(what: string, found: number, expected: number): void {
  if (found === expected) return;
  throw new Error(
    `${found} ${what} arrived; the export says ${expected}. Empty the data folder and try again.`,
  );
}
