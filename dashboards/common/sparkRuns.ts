import type { SparkHour } from '../../shared/api/types.ts';

export const hourMs = 3_600_000;

/** Splits where an hour is missing or another probe became the hottest: neither is bridged by a line. */
export function unbroken(hours: readonly SparkHour[]): SparkHour[][] {
  const runs: SparkHour[][] = [];
  for (const hour of hours) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.source === hour.source && hour.startMs - last.startMs <= hourMs) runs.at(-1)!.push(hour);
    else runs.push([hour]);
  }
  return runs;
}
