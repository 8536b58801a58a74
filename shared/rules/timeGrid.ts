import type { Sample } from '../readings/reading.ts';

/**
 * A ring of equal time cells holding one number each: constant memory and constant-time look-up for "what was it at".
 * Cells are allocated with the first value, so that a pile without moisture probes pays nothing for them.
 */
export interface TimeGrid {
  readonly stepMs: number;
  readonly cellCount: number;
  cells: Int16Array | null;
  /** Steps a value is kept in, of one unit: a sensor knows a temperature to a tenth, and two bytes hold a hundredth. */
  readonly stepsPerUnit: number;
  /** Number of the newest cell ever written: floor(time / step). */
  newest: number;
}

/** No value is ever written as this. */
const empty = -32_768;
const largest = 32_767;

/**
 * An empty grid; `cellCount` cells of `stepMinutes` each. Values are kept to `resolution`, in two bytes: within about
 * 327 at the default hundredth, what lies beyond is kept as the end of that range.
 */
export function createTimeGrid(stepMinutes: number, cellCount: number, resolution = 0.01): TimeGrid {
  const stepsPerUnit = Math.round(1 / resolution);
  return { stepMs: stepMinutes * 60_000, cellCount, cells: null, stepsPerUnit, newest: -1 };
}

/** Forgets every value. */
export function emptyGrid(grid: TimeGrid): void {
  grid.cells = null;
  grid.newest = -1;
}

/** Writes a value; a cell keeps its highest (or lowest) value. Older than the ring: ignored. */
export function putInGrid(grid: TimeGrid, timeMs: number, value: number, keep: 'highest' | 'lowest'): void {
  const cell = Math.floor(timeMs / grid.stepMs);
  grid.cells ??= new Int16Array(grid.cellCount).fill(empty);
  if (cell > grid.newest) advance(grid, cell);
  else if (cell <= grid.newest - grid.cellCount) return;
  const slot = cell % grid.cellCount;
  const held = grid.cells[slot]!;
  const steps = Math.max(-largest, Math.min(largest, Math.round(value * grid.stepsPerUnit)));
  const replaces = held === empty || (keep === 'highest' ? steps > held : steps < held);
  if (replaces) grid.cells[slot] = steps;
}

/** Value of the cell a time falls in; null when nothing good was measured in it or it has left the ring. */
export function gridAt(grid: TimeGrid, timeMs: number): number | null {
  const cell = Math.floor(timeMs / grid.stepMs);
  if (grid.cells === null || cell > grid.newest || cell <= grid.newest - grid.cellCount) return null;
  const steps = grid.cells[cell % grid.cellCount]!;
  return steps === empty ? null : numberOf(steps, grid);
}

/** Filled cells that lie wholly in [fromMs, toMs), oldest first, each at the middle of its cell. */
export function gridSamples(grid: TimeGrid, fromMs: number, toMs: number): Sample[] {
  const samples: Sample[] = [];
  if (grid.cells === null) return samples;
  const first = Math.max(Math.ceil(fromMs / grid.stepMs), grid.newest - grid.cellCount + 1);
  const end = Math.min(Math.floor(toMs / grid.stepMs), grid.newest + 1);
  for (let cell = first; cell < end; cell += 1) {
    const steps = grid.cells[cell % grid.cellCount]!;
    if (steps !== empty) samples.push({ timeMs: (cell + 0.5) * grid.stepMs, value: numberOf(steps, grid) });
  }
  return samples;
}

/** By division, so that 7 comes back as 7 and not as 7.000000000000001. */
function numberOf(steps: number, grid: TimeGrid): number {
  return steps / grid.stepsPerUnit;
}

function advance(grid: TimeGrid, cell: number): void {
  const skipped = grid.newest < 0 ? 0 : Math.min(cell - grid.newest, grid.cellCount);
  for (let back = 0; back < skipped; back += 1) grid.cells![(cell - back) % grid.cellCount] = empty;
  grid.newest = cell;
}
