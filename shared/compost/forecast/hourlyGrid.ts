import type { Sample } from '../../readings/reading.ts';
import { quantile } from '../../statistics/quantile.ts';

export const hourMs = 3_600_000;

/** Values on a fixed hourly grid; NaN where an hour has no reading. */
export interface HourlyGrid {
  readonly startMs: number;
  readonly values: Float64Array;
}

/**
 * Thins readings to one value an hour: the median of the readings within it, so that neither a dense probe counts for
 * more nor a single bad reading for much. Hours without readings stay empty: nothing is made up.
 * @param samples in time order. @throws RangeError when the span asked for is empty.
 */
export function hourlyMedians(samples: readonly Sample[], fromMs: number, toMs: number): HourlyGrid {
  const startMs = Math.floor(fromMs / hourMs) * hourMs;
  const count = Math.ceil((toMs - startMs) / hourMs);
  if (!(count > 0)) throw new RangeError(`toMs ${toMs} must be after fromMs ${fromMs}`);
  const values = new Float64Array(count).fill(Number.NaN);
  let bucket: number[] = [];
  let hour = -1;
  const close = () => {
    if (bucket.length > 0) values[hour] = quantile(bucket, 0.5);
    bucket = [];
  };
  for (const { timeMs, value } of samples) {
    const at = Math.floor((timeMs - startMs) / hourMs);
    if (at < 0 || at >= count) continue;
    if (at !== hour) close();
    hour = at;
    bucket.push(value);
  }
  close();
  return { startMs, values };
}

/** Fills empty hours with the last value before them (or the first after, at the start). For air, which drifts slowly. */
export function filledForward(values: Float64Array, whenNone: number): Float64Array {
  const first = values.find((value) => !Number.isNaN(value)) ?? whenNone;
  let last = first;
  return values.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}
