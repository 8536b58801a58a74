import type { Sample } from '../readings/reading.ts';
import { type TheilSenLine, theilSen } from '../statistics/theilSen.ts';
import { gridSamples, type TimeGrid } from './timeGrid.ts';

/** A robust line through the last stretch of a value, times in hours from now (so all are negative). */
export interface Outlook {
  readonly line: TheilSenLine;
  /** Slopes of the older and the newer half, per hour: whether it slows down. Worked out when asked, which is seldom. */
  readonly halves: () => { readonly earlierSlope: number; readonly laterSlope: number };
}

const mostPoints = 24;
const fewestPoints = 6;
/** Nine in ten: with 24 points the usual nineteen in twenty tells nothing more and answers later (our choice). */
const confidence = 0.9;

/**
 * The line through whole cells of the last `hours`, thinned to 24 points so that neighbours are nearly independent.
 * Null when there are fewer than 6 points, or they leave a third of the stretch uncovered: then nothing is foretold.
 */
export function outlookOf(grid: TimeGrid, nowMs: number, hours: number, fromMs = 0): Outlook | null {
  const startMs = Math.max(nowMs - hours * 3_600_000, fromMs);
  const points = thin(gridSamples(grid, startMs, nowMs));
  if (points.length < fewestPoints) return null;
  if (points.at(-1)!.timeMs - points[0]!.timeMs < (hours * 3_600_000 * 2) / 3) return null;
  const middle = points.length >> 1;
  return {
    line: lineOf(points, nowMs),
    halves: () => ({
      earlierSlope: lineOf(points.slice(0, middle), nowMs).slope,
      laterSlope: lineOf(points.slice(middle), nowMs).slope,
    }),
  };
}

/**
 * How much stronger than between the two halves it slows from here on: the line looks back to cooler hours, and growth
 * fails ever faster above 64 C (Suler and Finstein 1977). Found on the bench's tuning stories: rises that levelled off
 * slowed this much, those that ran through did not slow at all.
 */
const slowing = 3;

/**
 * Hours from now until a rising value reaches a level if it goes on slowing: each stretch of `stretchHours` rises by
 * the same share of the one before (never more than as much). Infinite when it levels off below.
 */
export function hoursUntil(
  outlook: Outlook,
  value: number,
  level: number,
  stretchHours: number,
  horizonHours: number,
): number {
  const { earlierSlope, laterSlope } = outlook.halves();
  if (laterSlope <= 0) return Number.POSITIVE_INFINITY;
  const share = earlierSlope <= 0 ? 1 : Math.min(1, laterSlope / earlierSlope) ** slowing;
  let [reached, slope] = [value, laterSlope];
  for (let hours = 0; hours < horizonHours; hours += stretchHours) {
    slope *= share;
    const rise = slope * stretchHours;
    if (reached + rise >= level) return hours + (level - reached) / slope;
    reached += rise;
  }
  return Number.POSITIVE_INFINITY;
}

function lineOf(points: readonly Sample[], nowMs: number): TheilSenLine {
  return theilSen(
    points.map(({ timeMs }) => (timeMs - nowMs) / 3_600_000),
    points.map(({ value }) => value),
    confidence,
  );
}

function thin(points: readonly Sample[]): Sample[] {
  const every = Math.ceil(points.length / mostPoints);
  return points.filter((_point, index) => (points.length - 1 - index) % every === 0);
}
