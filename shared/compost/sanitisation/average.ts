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
  const rows = period.flatMap((stretch) => rowsOf(record, stretch));
  let heldMs = 0;
  let area = 0;
  let tail = 0;
  let best: number | null = null;
  let metAtMs: number | null = null;
  for (const row of rows) {
    heldMs += row.lengthMs;
    area += row.lengthMs * row.celsius;
    // Drops old rows only while a whole window is left, so the window is never shorter than asked.
    while (heldMs - rows[tail]!.lengthMs >= need.windowMs) {
      heldMs -= rows[tail]!.lengthMs;
      area -= rows[tail]!.lengthMs * rows[tail]!.celsius;
      tail++;
    }
    if (heldMs < need.windowMs) continue;
    const mean = area / heldMs - need.guardCelsius;
    best = Math.max(best ?? Number.NEGATIVE_INFINITY, mean);
    if (mean > need.aboveCelsius) metAtMs ??= row.toMs;
  }
  return { bestCelsius: best ?? (heldMs > 0 ? area / heldMs - need.guardCelsius : null), metAtMs };
}

function rowsOf(record: ZoneRecord, stretch: Stretch) {
  const rows: { lengthMs: number; celsius: number; toMs: number }[] = [];
  for (let row = stretch.firstRow; row < stretch.endRow; row++) {
    const fromMs = Math.max(record.fromMs[row]!, stretch.fromMs);
    rows.push({
      lengthMs: record.toMs[row]! - fromMs,
      celsius: record.meanCelsius[row]!,
      toMs: record.toMs[row]!,
    });
  }
  return rows;
}
