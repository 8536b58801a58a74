import { requireBetween } from '../allowed.ts';
import { type RingLayout, ringMaximumDistance, ringRadiusRange } from './ringFormulas.ts';

export interface BestRing {
  readonly layout: RingLayout;
  readonly maximumDistanceMetres: number;
}

/** Radii tried across the allowed range before refining. */
const scanSteps = 200;
const goldenShare = (Math.sqrt(5) - 1) / 2;

/**
 * The ring radius that keeps the farthest point of the pile nearest to air, for a given number of channels.
 * `null` when that many channels do not fit. Scans the allowed radii, then narrows by golden section.
 */
export function bestRing(choice: Omit<RingLayout, 'ringRadiusMetres'>): BestRing | null {
  requireBetween('count', choice.count, 2, 200);
  const { low, high } = ringRadiusRange(choice);
  if (low > high) return null;
  const distanceAt = (ringRadiusMetres: number) => ringMaximumDistance({ ...choice, ringRadiusMetres });
  const ringRadiusMetres = lowest(distanceAt, low, high);
  return { layout: { ...choice, ringRadiusMetres }, maximumDistanceMetres: distanceAt(ringRadiusMetres) };
}

/** Argument at which a function is lowest between two bounds. */
function lowest(of: (argument: number) => number, low: number, high: number): number {
  const step = (high - low) / scanSteps;
  const tried = Array.from({ length: scanSteps + 1 }, (_, index) => low + index * step);
  const start = tried.reduce((best, each) => (of(each) < of(best) ? each : best), low);
  let [from, to] = [Math.max(low, start - step), Math.min(high, start + step)];
  while (to - from > 1e-9) {
    const [left, right] = [to - goldenShare * (to - from), from + goldenShare * (to - from)];
    if (of(left) <= of(right)) to = right;
    else from = left;
  }
  return (from + to) / 2;
}
