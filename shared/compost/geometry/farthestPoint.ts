import { requireBetween } from '../allowed.ts';
import { planDistanceToAir } from './distanceToAir.ts';
import { checkLayout, type PlanLayout } from './layout.ts';
import { centralOnly } from './ringFormulas.ts';

export interface FarthestPoint {
  readonly xMetres: number;
  readonly yMetres: number;
  /** Infinite when the plan has no air at all. */
  readonly distanceMetres: number;
}

/** A square still worth looking into, by its centre and half side. */
interface Square {
  readonly x: number;
  readonly y: number;
  readonly half: number;
}

/** Squares along each side of the first grid. */
const firstGrid = 16;

/**
 * The point of the compost farthest from air in plan, for any layout, and its distance to within `toleranceMetres`
 * below the true maximum. A grid is refined only where the maximum can still be: distance grows no faster than one
 * metre a metre, so a square whose centre value plus half diagonal stays below the best found is dropped. With one
 * channel on the axis a whole circle is equally far: its point on the x axis is given, exactly.
 */
export function farthestPoint(layout: PlanLayout, toleranceMetres = 1e-4): FarthestPoint {
  checkLayout(layout);
  requireBetween('toleranceMetres', toleranceMetres, 1e-6, 1);
  if (!layout.wallPermeable && layout.channels.length === 0)
    return { xMetres: 0, yMetres: 0, distanceMetres: Number.POSITIVE_INFINITY };
  if (isOnlyCentral(layout)) return allRound(layout);
  let squares = startingSquares(layout.radiusMetres);
  let best: FarthestPoint = { xMetres: 0, yMetres: 0, distanceMetres: planDistanceToAir(layout, 0, 0) };
  while (squares.length > 0) {
    const looked = squares.map((square) => ({ square, point: pointOf(layout, square) }));
    for (const { point } of looked) if (point.distanceMetres > best.distanceMetres + 1e-9) best = point;
    const enough = best.distanceMetres + toleranceMetres;
    const open = looked.filter(
      ({ square, point }) => point.distanceMetres + square.half * Math.SQRT2 > enough,
    );
    squares = open
      .flatMap(({ square }) => quarters(square))
      .filter((square) => touchesDisc(square, layout.radiusMetres));
  }
  return best;
}

function isOnlyCentral({ channels }: PlanLayout): boolean {
  return channels.length === 1 && channels[0]!.xMetres === 0 && channels[0]!.yMetres === 0;
}

function allRound(layout: PlanLayout): FarthestPoint {
  const farthest = centralOnly(layout.radiusMetres, layout.channels[0]!.radiusMetres, layout.wallPermeable);
  return { xMetres: farthest.radiusMetres, yMetres: 0, distanceMetres: farthest.distanceMetres };
}

function startingSquares(radius: number): Square[] {
  const half = radius / firstGrid;
  const places = Array.from({ length: firstGrid }, (_, index) => -radius + half * (2 * index + 1));
  return places.flatMap((y) => places.map((x) => ({ x, y, half })));
}

function quarters({ x, y, half }: Square): Square[] {
  const quarter = half / 2;
  return [-quarter, quarter].flatMap((dy) =>
    [-quarter, quarter].map((dx) => ({ x: x + dx, y: y + dy, half: quarter })),
  );
}

function touchesDisc({ x, y, half }: Square, radius: number): boolean {
  return Math.hypot(Math.max(Math.abs(x) - half, 0), Math.max(Math.abs(y) - half, 0)) <= radius;
}

/** The centre of a square, drawn in to the wall when it lies outside: that never lengthens a distance. */
function pointOf(layout: PlanLayout, { x, y }: Square): FarthestPoint {
  const shrink = Math.min(1, layout.radiusMetres / Math.max(Math.hypot(x, y), 1e-12));
  const [xMetres, yMetres] = [x * shrink, y * shrink];
  return { xMetres, yMetres, distanceMetres: planDistanceToAir(layout, xMetres, yMetres) };
}
