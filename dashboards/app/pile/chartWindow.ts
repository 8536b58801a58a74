import type { SeriesStep } from '../../../shared/api/types.ts';

const dayMs = 86_400_000;

/** The stretch of time a chart shows. */
export interface ChartWindow {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Share of the past shown that is left for what is to come. */
const shareAhead = 0.3;

/** How far ahead to show: a share of the past, as far as is known what is to come. */
export function aheadOf(pastMs: number, knownAheadMs: number): number {
  return Math.min(pastMs * shareAhead, knownAheadMs);
}

/** The last `days` days (0: the pile's whole life, and a day at least), and what is to come. */
export function windowEndingAt(
  nowMs: number,
  days: number,
  startedMs: number,
  knownAheadMs = 0,
): ChartWindow {
  const fromMs = days === 0 ? Math.min(startedMs, nowMs - dayMs) : nowMs - days * dayMs;
  return { fromMs, toMs: nowMs + aheadOf(nowMs - fromMs, knownAheadMs) };
}

/** Moved by a share of its width (negative: earlier), at most to the end of what is known and back to the pile's start. */
export function moved(shown: ChartWindow, byShare: number, startedMs: number, endMs: number): ChartWindow {
  const width = shown.toMs - shown.fromMs;
  const latestFromMs = endMs - width;
  const earliestFromMs = Math.min(startedMs - width / 2, latestFromMs);
  const fromMs = Math.max(earliestFromMs, Math.min(latestFromMs, shown.fromMs + byShare * width));
  return { fromMs, toMs: fromMs + width };
}

/** What to fetch: the window with as much again on both sides, so that a drag finds its curves already there. */
export function fetchedAround({ fromMs, toMs }: ChartWindow, nowMs: number): ChartWindow {
  const width = toMs - fromMs;
  return { fromMs: Math.max(0, Math.round(fromMs - width)), toMs: Math.round(Math.min(toMs + width, nowMs)) };
}

/** Whether a window still lies inside what was fetched, with a quarter of its width to spare. */
export function isCovered(shown: ChartWindow, fetched: ChartWindow, nowMs: number): boolean {
  const spare = (shown.toMs - shown.fromMs) / 4;
  const toMs = Math.min(shown.toMs + spare, nowMs);
  return shown.fromMs - spare >= fetched.fromMs && toMs <= fetched.toMs;
}

/** Points a screen can tell apart, whatever lies behind: readings for a week, hours for weeks, else days. */
export function stepFor({ fromMs, toMs }: ChartWindow): SeriesStep {
  const days = (toMs - fromMs) / dayMs;
  if (days <= 7.01) return 'raw';
  return days <= 45 ? 'hour' : 'day';
}
