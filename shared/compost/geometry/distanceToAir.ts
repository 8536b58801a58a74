import { requirePositive } from '../allowed.ts';
import type { PlanLayout } from './layout.ts';

/**
 * Distance in plan from a point to the nearest air, metres (9.2): to the wall if it is permeable, to the edge of each
 * channel. Negative inside a channel or outside a permeable wall. Infinite when the plan has no air at all.
 * Changes by at most the distance moved (1-Lipschitz), which the search for the farthest point relies on.
 */
export function planDistanceToAir(layout: PlanLayout, xMetres: number, yMetres: number): number {
  let nearest = layout.wallPermeable
    ? layout.radiusMetres - Math.hypot(xMetres, yMetres)
    : Number.POSITIVE_INFINITY;
  for (const channel of layout.channels) {
    const gap = Math.hypot(xMetres - channel.xMetres, yMetres - channel.yMetres) - channel.radiusMetres;
    if (gap < nearest) nearest = gap;
  }
  return nearest;
}

/** Which ends of the pile air can enter by. A pallet or pipes under the pile make the base open. */
export interface OpenEnds {
  readonly heightMetres: number;
  readonly topOpen: boolean;
  readonly baseOpen: boolean;
}

/** Distance to air in space: plan distance, height above an open base and depth under an open top, whichever is least. */
export function distanceToAir(layout: PlanLayout, ends: OpenEnds, x: number, y: number, z: number): number {
  return Math.min(planDistanceToAir(layout, x, y), verticalDistanceToAir(ends, z));
}

/** Distance straight up or down to an open end; infinite when both are closed. */
export function verticalDistanceToAir(ends: OpenEnds, z: number): number {
  const up = ends.topOpen ? ends.heightMetres - z : Number.POSITIVE_INFINITY;
  const down = ends.baseOpen ? z : Number.POSITIVE_INFINITY;
  return Math.min(up, down);
}

/** Square grid of plan distances; `values[row * columns + column]` is NaN where there is no compost. */
export interface DistanceField {
  readonly columns: number;
  readonly rows: number;
  readonly spacingMetres: number;
  /** Place of the first value; columns go along x, rows along y. */
  readonly originXMetres: number;
  readonly originYMetres: number;
  readonly values: Float64Array;
}

/** Most values a field may have: a finer one than this serves no drawing. */
const mostValues = 4_000_000;

/** Plan distances on a grid centred on the axis, for colouring a plan. Underestimates the maximum by up to s/sqrt2. */
export function distanceField(layout: PlanLayout, spacingMetres: number): DistanceField {
  requirePositive('spacingMetres', spacingMetres);
  const half = Math.ceil(layout.radiusMetres / spacingMetres);
  const columns = 2 * half + 1;
  if (columns * columns > mostValues)
    throw new RangeError(
      `spacingMetres is ${spacingMetres}; allowed is ${layout.radiusMetres / 999} or more`,
    );
  const origin = -half * spacingMetres;
  const values = new Float64Array(columns * columns);
  for (let index = 0; index < values.length; index += 1) {
    const x = origin + (index % columns) * spacingMetres;
    const y = origin + Math.floor(index / columns) * spacingMetres;
    values[index] = compostDistance(layout, x, y);
  }
  return { columns, rows: columns, spacingMetres, originXMetres: origin, originYMetres: origin, values };
}

function compostDistance(layout: PlanLayout, x: number, y: number): number {
  if (Math.hypot(x, y) > layout.radiusMetres) return Number.NaN;
  const distance = planDistanceToAir(layout, x, y);
  return distance < 0 ? Number.NaN : distance;
}
