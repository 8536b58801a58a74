import type { Past, PastChannel } from '../../../shared/rules/replayPast.ts';
import type { Placement } from '../../../shared/yard/yard.ts';

/** What was measured in a stretch of time, lowest and highest of all channels. */
export interface CurvePoint {
  readonly atMs: number;
  readonly lowest: number;
  readonly highest: number;
}

/** Runs of points; a new run begins after a gap in which nothing good was heard. */
export type Curve = readonly (readonly CurvePoint[])[];

export interface PastCurves {
  readonly heat: Curve;
  readonly moisture: Curve;
  readonly air: Curve;
}

/** Longest pause that is still drawn as one line. */
const bridgeMs = 3 * 3_600_000;

/** A pile's past, however many readings it holds, as about as many points as a screen is wide. */
export function curvesOf(past: Past, fromMs: number, points = 700): PastCurves {
  const placements = new Map(past.facts.placed.map(({ placement }) => [placement.id, placement]));
  const stretchMs = Math.max(60_000, (past.toMs - fromMs) / points);
  const curve = (wanted: (placement: Placement) => boolean): Curve => {
    const channels = past.channels.filter(({ placementId }) => {
      const placement = placements.get(placementId);
      return placement !== undefined && wanted(placement);
    });
    return runsOf(thinned(channels, fromMs, stretchMs), stretchMs);
  };
  return {
    heat: curve(({ quantity, position }) => quantity === 'temperature' && position === 'core'),
    moisture: curve(({ quantity }) => quantity === 'moisture'),
    air: curve(({ quantity, position }) => quantity === 'temperature' && position === 'air'),
  };
}

function thinned(channels: readonly PastChannel[], fromMs: number, stretchMs: number): CurvePoint[] {
  const found = new Map<number, { lowest: number; highest: number }>();
  for (const { timesMs, values, quality } of channels)
    for (let row = 0; row < timesMs.length; row += 1) {
      if (quality[row] !== 0 || timesMs[row]! < fromMs) continue;
      const place = Math.floor((timesMs[row]! - fromMs) / stretchMs);
      const value = values[row]!;
      const held = found.get(place);
      if (held === undefined) found.set(place, { lowest: value, highest: value });
      else {
        held.lowest = Math.min(held.lowest, value);
        held.highest = Math.max(held.highest, value);
      }
    }
  return [...found]
    .sort(([one], [other]) => one - other)
    .map(([place, ends]) => ({ atMs: fromMs + (place + 0.5) * stretchMs, ...ends }));
}

function runsOf(points: readonly CurvePoint[], stretchMs: number): CurvePoint[][] {
  const runs: CurvePoint[][] = [];
  let lastMs = Number.NEGATIVE_INFINITY;
  for (const point of points) {
    if (point.atMs - lastMs > bridgeMs + stretchMs) runs.push([]);
    runs.at(-1)!.push(point);
    lastMs = point.atMs;
  }
  return runs;
}

/** Lowest and highest of a curve; null when it has no point. */
export function endsOf(curve: Curve): readonly [lowest: number, highest: number] | null {
  const points = curve.flat();
  if (points.length === 0) return null;
  return [
    points.reduce((least, { lowest }) => Math.min(least, lowest), Number.POSITIVE_INFINITY),
    points.reduce((most, { highest }) => Math.max(most, highest), Number.NEGATIVE_INFINITY),
  ];
}
