import { requirePositive } from '../allowed.ts';
import { type OpenEnds, verticalDistanceToAir } from './distanceToAir.ts';
import { farthestPoint } from './farthestPoint.ts';
import type { PlanLayout } from './layout.ts';

/** Where the core probe's tip belongs: the point of the pile farthest from any air. */
export interface ProbePlace {
  readonly xMetres: number;
  readonly yMetres: number;
  /** Height of the tip above the base: the middle of `heightRangeMetres`. */
  readonly zMetres: number;
  /** Heights at this place that are all equally far from air. */
  readonly heightRangeMetres: readonly [low: number, high: number];
  readonly distanceToAirMetres: number;
  /** How deep to push a probe straight down from the top, and how far straight in from the nearest wall. */
  readonly depthFromTopMetres: number;
  readonly depthFromWallMetres: number;
}

/**
 * Farthest point from air in space. Channels run the whole height, so the plan and the height can be searched apart:
 * the answer is the lesser of the two farthest distances. Throws when a pile has no air from any side.
 */
export function probePlace(layout: PlanLayout, ends: OpenEnds, toleranceMetres = 1e-4): ProbePlace {
  requirePositive('heightMetres', ends.heightMetres);
  const inPlan = farthestPoint(layout, toleranceMetres);
  const best = farthestHeight(ends);
  const distanceToAirMetres = Math.min(inPlan.distanceMetres, verticalDistanceToAir(ends, best));
  if (distanceToAirMetres === Number.POSITIVE_INFINITY)
    throw new RangeError('the pile has no air: the wall, top and base are closed and there is no channel');
  const heightRangeMetres = heightRange(ends, distanceToAirMetres);
  const zMetres = (heightRangeMetres[0] + heightRangeMetres[1]) / 2;
  return {
    xMetres: inPlan.xMetres,
    yMetres: inPlan.yMetres,
    zMetres,
    heightRangeMetres,
    distanceToAirMetres,
    depthFromTopMetres: ends.heightMetres - zMetres,
    depthFromWallMetres: layout.radiusMetres - Math.hypot(inPlan.xMetres, inPlan.yMetres),
  };
}

function farthestHeight({ heightMetres, topOpen, baseOpen }: OpenEnds): number {
  if (topOpen === baseOpen) return heightMetres / 2;
  return topOpen ? 0 : heightMetres;
}

/** Heights at least `distance` away from every open end. */
function heightRange({ heightMetres, topOpen, baseOpen }: OpenEnds, distance: number): [number, number] {
  return [baseOpen ? distance : 0, topOpen ? heightMetres - distance : heightMetres];
}
