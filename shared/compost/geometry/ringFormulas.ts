/**
 * Exact farthest distances for equal channels evenly on one ring, with or without one on the axis (pack 9.2).
 *
 * At any radius the place farthest from the ring lies midway between two channels, and axis and wall are equally far
 * all round, so the farthest point of the whole plan stands on that one ray. Along it the distance to the ring has no
 * peak of its own: the maximum is at the centre, at the wall, or where two of the distances (axis channel, ring,
 * permeable wall) are equal.
 */
import { requireBetween, requirePositive } from '../allowed.ts';
import { centralChannel, type PlanLayout, ring } from './layout.ts';

export interface RingLayout {
  readonly radiusMetres: number;
  readonly wallPermeable: boolean;
  readonly channelRadiusMetres: number;
  /** Channels on the ring, 2 or more; a single channel belongs on the axis (`centralOnly`). */
  readonly count: number;
  readonly ringRadiusMetres: number;
  readonly withCentral: boolean;
}

/** A place that may be the farthest from air, and how far it is from the nearest air of any kind. */
export interface Candidate {
  readonly where:
    | 'centre'
    | 'between axis and ring'
    | 'between ring and wall'
    | 'between axis and wall'
    | 'wall';
  /** Distance from the axis. */
  readonly radiusMetres: number;
  readonly distanceMetres: number;
}

/** Farthest place with one channel on the axis and no others (cases B and C). */
export function centralOnly(
  radiusMetres: number,
  channelRadiusMetres: number,
  wallPermeable: boolean,
): Candidate {
  requirePositive('radiusMetres', radiusMetres);
  requireBetween('channelRadiusMetres', channelRadiusMetres, 0, radiusMetres);
  const gap = radiusMetres - channelRadiusMetres;
  if (!wallPermeable) return { where: 'wall', radiusMetres, distanceMetres: gap };
  return {
    where: 'between axis and wall',
    radiusMetres: (radiusMetres + channelRadiusMetres) / 2,
    distanceMetres: gap / 2,
  };
}

/** All candidates of a ring, farthest first. Throws when channels would overlap or cut the wall. */
export function ringCandidates(layout: RingLayout): Candidate[] {
  checkRing(layout);
  return candidateRadii(layout)
    .filter(([, radiusMetres]) => radiusMetres >= 0 && radiusMetres <= layout.radiusMetres)
    .map(([where, radiusMetres]) => ({
      where,
      radiusMetres,
      distanceMetres: distanceOnRay(layout, radiusMetres),
    }))
    .sort((a, b) => b.distanceMetres - a.distanceMetres);
}

/** Greatest distance to air anywhere in plan. */
export function ringMaximumDistance(layout: RingLayout): number {
  return ringCandidates(layout)[0]!.distanceMetres;
}

/** The ring's channels as a plan. */
export function planOfRing(layout: RingLayout): PlanLayout {
  const { radiusMetres, wallPermeable, channelRadiusMetres, count, ringRadiusMetres, withCentral } = layout;
  const central = withCentral ? [centralChannel(channelRadiusMetres)] : [];
  const channels = [...ring(count, ringRadiusMetres, channelRadiusMetres), ...central];
  return { radiusMetres, wallPermeable, channels };
}

/** Ring radii between which channels neither overlap one another nor cut the wall; empty when low > high. */
export function ringRadiusRange(layout: Omit<RingLayout, 'ringRadiusMetres'>): { low: number; high: number } {
  const touching = layout.channelRadiusMetres / Math.sin(Math.PI / layout.count);
  const clearOfCentral = layout.withCentral ? 2 * layout.channelRadiusMetres : 0;
  return { low: Math.max(touching, clearOfCentral), high: layout.radiusMetres - layout.channelRadiusMetres };
}

function candidateRadii(layout: RingLayout): (readonly [Candidate['where'], number])[] {
  const { radiusMetres, wallPermeable, withCentral, channelRadiusMetres } = layout;
  const between = [
    ...(withCentral ? [['between axis and ring', axisMeetsRing(layout)] as const] : []),
    ...(wallPermeable ? [['between ring and wall', ringMeetsWall(layout)] as const] : []),
    ...(withCentral && wallPermeable
      ? [['between axis and wall', (radiusMetres + channelRadiusMetres) / 2] as const]
      : []),
  ];
  return [['centre', 0], ...between, ['wall', radiusMetres]];
}

/** Distance to the nearest air at a radius on the ray midway between two channels. */
function distanceOnRay(layout: RingLayout, radius: number): number {
  const along = layout.ringRadiusMetres * Math.cos(Math.PI / layout.count);
  const across = layout.ringRadiusMetres * Math.sin(Math.PI / layout.count);
  const toRing = Math.hypot(radius - along, across) - layout.channelRadiusMetres;
  const toAxis = layout.withCentral ? radius - layout.channelRadiusMetres : Number.POSITIVE_INFINITY;
  const toWall = layout.wallPermeable ? layout.radiusMetres - radius : Number.POSITIVE_INFINITY;
  return Math.min(toRing, toAxis, toWall);
}

/** Equally far from the axis channel and two neighbours: for six, ring radius / sqrt 3. */
function axisMeetsRing({ ringRadiusMetres, count }: RingLayout): number {
  return ringRadiusMetres / (2 * Math.cos(Math.PI / count));
}

/** rho = [(R + a)^2 - r^2] / {2 [(R + a) - r cos(pi/N)]}. */
function ringMeetsWall({ radiusMetres, channelRadiusMetres, ringRadiusMetres, count }: RingLayout): number {
  const reach = radiusMetres + channelRadiusMetres;
  return (reach ** 2 - ringRadiusMetres ** 2) / (2 * (reach - ringRadiusMetres * Math.cos(Math.PI / count)));
}

function checkRing(layout: RingLayout): void {
  requirePositive('radiusMetres', layout.radiusMetres);
  requirePositive('channelRadiusMetres', layout.channelRadiusMetres);
  requireBetween('count', layout.count, 2, 200);
  const { low, high } = ringRadiusRange(layout);
  requireBetween('ringRadiusMetres', layout.ringRadiusMetres, low * (1 - 1e-9), high * (1 + 1e-9));
}
