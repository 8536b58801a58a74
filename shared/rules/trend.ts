import type { Sample } from '../readings/reading.ts';
import { theilSen } from '../statistics/theilSen.ts';
import { gridSamples, type TimeGrid } from './timeGrid.ts';

const mostPoints = 24;
const fewestPoints = 6;

/**
 * Robust slope per hour (Theil-Sen) over the whole cells of the last `hours`, thinned to at most 24 points. Null when
 * there are fewer than 6 or they cover less than half of the stretch: then nothing honest can be said.
 */
export function gridTrendPerHour(grid: TimeGrid, nowMs: number, hours: number): number | null {
  const points = thin(gridSamples(grid, nowMs - hours * 3_600_000, nowMs));
  if (points.length < fewestPoints) return null;
  const firstMs = points[0]!.timeMs;
  if (points.at(-1)!.timeMs - firstMs < (hours * 3_600_000) / 2) return null;
  const times = points.map((point) => (point.timeMs - firstMs) / 3_600_000);
  return theilSen(
    times,
    points.map((point) => point.value),
  ).slope;
}

function thin(points: readonly Sample[]): Sample[] {
  const every = Math.ceil(points.length / mostPoints);
  return points.filter((_point, index) => (points.length - 1 - index) % every === 0);
}
