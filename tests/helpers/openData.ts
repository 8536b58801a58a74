import { existsSync, readFileSync } from 'node:fs';
import type { Sample } from '../../shared/readings/reading.ts';

/** The open measured series stand beside the checkout, never inside it. */
const folder = new URL('../../../shared/datasets/', import.meta.url);

/** True when the named file is there; otherwise says on the console which tests are skipped and why. */
export function hasOpenData(file: string): boolean {
  const there = existsSync(new URL(file, folder));
  if (!there) console.log(`SKIPPED: open data file ${file} is not beside this checkout (shared/datasets)`);
  return there;
}

/** A table by column name; an empty cell or NA is null. */
export type OpenTable = ReadonlyMap<string, readonly (string | null)[]>;

/** Reads a plain CSV file (no quotes in any of ours). Throws when a line has another number of cells than the header. */
export function readOpenTable(file: string): OpenTable {
  const [header, ...lines] = readFileSync(new URL(file, folder), 'utf8').trim().split(/\r?\n/);
  const names = header!.split(',');
  const columns = new Map<string, (string | null)[]>(names.map((name) => [name, []]));
  lines.forEach((line, index) => {
    const cells = line.split(',');
    if (cells.length !== names.length)
      throw new Error(`${file} line ${index + 2}: ${cells.length} cells, not ${names.length}`);
    names.forEach((name, column) => {
      columns.get(name)!.push(known(cells[column]!));
    });
  });
  return columns;
}

function known(cell: string): string | null {
  return cell === '' || cell === 'NA' ? null : cell;
}

/** One numeric column as samples. Times without a zone are read as UTC, which keeps both Danish files on one clock. */
export function samplesOf(table: OpenTable, timeColumn: string, valueColumn: string): Sample[] {
  const [times, values] = [columnOf(table, timeColumn), columnOf(table, valueColumn)];
  return values.flatMap((value, row) =>
    value === null ? [] : [{ timeMs: timeMsOf(times[row]!), value: Number(value) }],
  );
}

function columnOf(table: OpenTable, name: string): readonly (string | null)[] {
  const column = table.get(name);
  if (column === undefined) throw new Error(`no column ${name}; there are ${[...table.keys()].join(', ')}`);
  return column;
}

/** Epoch milliseconds of a time as the files write it. */
export function timeMsOf(text: string): number {
  return Date.parse(/Z$|[+-]\d\d:\d\d$/.test(text) ? text : `${text}Z`);
}
