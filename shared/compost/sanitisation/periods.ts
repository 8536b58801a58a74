import type { Continuity } from './ruleSet.ts';
import type { Stretch } from './stretches.ts';

/** What a longer hole in the data does to a count that must run without a break: end it, or stop the clock and go on. */
export type GapPolicy = 'break' | 'pause';

export interface PeriodOptions {
  readonly continuity: Continuity;
  readonly gapPolicy: GapPolicy;
  /** A hole up to this, e.g. while a probe was swapped, stops the clock but ends no run: heat cannot come and go in it. */
  readonly maximumGapMs: number;
  /** With `pause`: a hole longer than this ends the run all the same. */
  readonly longestPauseMs: number;
}

/**
 * Groups stretches into the periods whose hours may be added together: each run on its own when hours must be
 * consecutive, everything in one when they may be added up. A pause never earns hours, it only keeps the run alive.
 */
export function groupPeriods(stretches: readonly Stretch[], options: PeriodOptions): Stretch[][] {
  if (stretches.length === 0) return [];
  if (options.continuity === 'cumulative') return [[...stretches]];
  const periods: Stretch[][] = [];
  for (const stretch of stretches) {
    const last = periods.at(-1);
    if (last !== undefined && goesOn(last.at(-1)!, stretch, options)) last.push(stretch);
    else periods.push([stretch]);
  }
  return periods;
}

function goesOn(before: Stretch, after: Stretch, options: PeriodOptions): boolean {
  const holeMs = after.fromMs - before.toMs;
  const allowedMs = options.gapPolicy === 'pause' ? options.longestPauseMs : options.maximumGapMs;
  return after.followsHole && holeMs <= allowedMs;
}
