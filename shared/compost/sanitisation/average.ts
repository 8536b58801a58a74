import type { Stretch } from './stretches.ts';
import type { ZoneRecord } from './zones.ts';

export interface AverageOutcome {
  /** Hottest mean of any window, or of what there is so far when the window is not yet full; null without data. */
  readonly bestCelsius: number | null;
  /** When a full window's mean was first above the need; null when never. */
  readonly metAtMs: number | null;
}

export interface AverageNeed {
  readonly windowMs: number;
  readonly aboveCelsius: number;
  readonly guardCelsius: number;
}

/** Slides a window of credited time over a period and looks for a mean (of the coolest zone) above the need. */
export function findAverage(
  record: ZoneRecord,
  period: readonly Stretch[],
  need: AverageNeed,
): AverageOutcome {
  const rows = rowsOf(period);
  const sinceMs = period[0]?.fromMs ?? 0;
  // Only the very first row can begin before its period, where fresh material cut it.
  const lengthMs = (row: number) => record.toMs[row]! - Math.max(record.fromMs[row]!, sinceMs);
  let heldMs = 0;
  let area = 0;
  let tail = 0;
  let best: number | null = null;
  let metAtMs: number | null = null;
  for (const row of rows) {
    heldMs += lengthMs(row);
    area += lengthMs(row) * record.meanCelsius[row]!;
    // Drops old rows only while a whole window is left, so the window is never shorter than asked.
    for (let old = lengthMs(rows[tail]!); heldMs - old >= need.windowMs; old = lengthMs(rows[tail]!)) {
      heldMs -= old;
      area -= old * record.meanCelsius[rows[tail]!]!;
      tail++;
    }
    if (heldMs < need.windowMs) continue;
    const mean = area / heldMs - need.guardCelsius;
    best = Math.max(best ?? Number.NEGATIVE_INFINITY, mean);
    if (mean > need.aboveCelsius) metAtMs ??= record.toMs[row]!;
  }
  return { bestCelsius: best ?? (heldMs > 0 ? area / heldMs - need.guardCelsius : null), metAtMs };
}

function rowsOf(period: readonly Stretch[]): Int32Array {
  const rows = new Int32Array(period.reduce((sum, stretch) => sum + stretch.endRow - stretch.firstRow, 0));
  let next = 0;
  for (const stretch of period)
    for (let row = stretch.firstRow; row < stretch.endRow; row++) rows[next++] = row;
  return rows;
}
