import type { Sample } from '../readings/reading.ts';

/**
 * A ring of equal time cells holding one number each: constant memory and constant-time look-up for "what was it at".
 * Cells are allocated with the first value, so that a pile without moisture probes pays nothing for them.
 */
export interface TimeGrid {
  readonly stepMs: number;
  readonly cellCount: number;
  cells: Float32Array | null;
  /** Number of the newest cell ever written: floor(time / step). */
  newest: number;
}

/** An empty grid; `cellCount` cells of `stepMinutes` each. */
export function createTimeGrid(stepMinutes: number, cellCount: number): TimeGrid {
  return { stepMs: stepMinutes * 60_000, cellCount, cells: null, newest: -1 };
}

/** Writes a value; a cell keeps its highest (or lowest) value. Older than the ring: ignored. */
export function putInGrid(grid: TimeGrid, timeMs: number, value: number, keep: 'highest' | 'lowest'): void {
  const cell = Math.floor(timeMs / grid.stepMs);
  grid.cells ??= new Float32Array(grid.cellCount).fill(Number.NaN);
  if (cell > grid.newest) advance(grid, cell);
  else if (cell <= grid.newest - grid.cellCount) return;
  const slot = cell % grid.cellCount;
  const held = grid.cells[slot]!;
  const replaces = Number.isNaN(held) || (keep === 'highest' ? value > held : value < held);
  if (replaces) grid.cells[slot] = value;
}

/** Value of the cell a time falls in; null when nothing good was measured in it or it has left the ring. */
export function gridAt(grid: TimeGrid, timeMs: number): number | null {
  const cell = Math.floor(timeMs / grid.stepMs);
  if (grid.cells === null || cell > grid.newest || cell <= grid.newest - grid.cellCount) return null;
  const value = grid.cells[cell % grid.cellCount]!;
  return Number.isNaN(value) ? null : value;
}

/** Filled cells that lie wholly in [fromMs, toMs), oldest first, each at the middle of its cell. */
export function gridSamples(grid: TimeGrid, fromMs: number, toMs: number): Sample[] {
  const samples: Sample[] = [];
  if (grid.cells === null) return samples;
  const first = Math.max(Math.ceil(fromMs / grid.stepMs), grid.newest - grid.cellCount + 1);
  const end = Math.min(Math.floor(toMs / grid.stepMs), grid.newest + 1);
  for (let cell = first; cell < end; cell += 1) {
    const value = grid.cells[cell % grid.cellCount]!;
    if (!Number.isNaN(value)) samples.push({ timeMs: (cell + 0.5) * grid.stepMs, value });
  }
  return samples;
}

function advance(grid: TimeGrid, cell: number): void {
  const skipped = grid.newest < 0 ? 0 : Math.min(cell - grid.newest, grid.cellCount);
  for (let back = 0; back < skipped; back += 1) grid.cells![(cell - back) % grid.cellCount] = Number.NaN;
  grid.newest = cell;
}
