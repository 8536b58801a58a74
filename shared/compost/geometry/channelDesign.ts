import { requireBetween, requirePositive } from '../allowed.ts';
import { bestRing } from './bestRing.ts';
import { farthestPoint } from './farthestPoint.ts';
import { centralChannel, defaultMaximumDistanceMetres, type PlanLayout, ring } from './layout.ts';
import { planOfRing, ringRadiusRange } from './ringFormulas.ts';

export interface DesignProblem {
  readonly radiusMetres: number;
  readonly wallPermeable: boolean;
  readonly channelRadiusMetres: number;
  readonly maximumDistanceMetres?: number;
}

export interface ChannelDesign {
  readonly layout: PlanLayout;
  /** Rings from outside in, then 0 for a channel on the axis. */
  readonly rings: readonly { readonly count: number; readonly ringRadiusMetres: number }[];
  /** What the search over the whole plan finds, not what the construction promised. */
  readonly reachedDistanceMetres: number;
}

/** Most channels tried on one ring; beyond that a bigger pile wants another shape. */
const mostOnRing = 36;

type Rings = readonly { readonly count: number; readonly ringRadiusMetres: number }[];

/**
 * The fewest air channels, on one ring or several and possibly one on the axis, that leave nothing farther than the
 * maximum distance (default 0.30 m) from air in plan. Works from the wall inward: each ring is placed as far in as it
 * can be while it still covers everything outside it; what it leaves uncovered is the same problem, smaller. Fewest
 * among such constructions; a scattered layout might do with one less. `null` when channels of this size cannot do it.
 */
export function designChannels(problem: DesignProblem): ChannelDesign | null {
  const { radiusMetres, wallPermeable, channelRadiusMetres } = problem;
  requirePositive('radiusMetres', radiusMetres);
  requireBetween('channelRadiusMetres', channelRadiusMetres, 0.005, radiusMetres);
  const goal = requirePositive(
    'maximumDistanceMetres',
    problem.maximumDistanceMetres ?? defaultMaximumDistanceMetres,
  );
  const rings = fewestRings(radiusMetres, wallPermeable, { channel: channelRadiusMetres, goal }, 0);
  return rings === null ? null : finish(improved(rings, problem), problem);
}

/** Radius of a channel and the distance it must not be farther than. */
interface Reach {
  readonly channel: number;
  readonly goal: number;
}

/** Rings for a disc of this radius; the depth bounds the number of rings. */
function fewestRings(radius: number, permeable: boolean, reach: Reach, depth: number): Rings | null {
  const { channel, goal } = reach;
  if (permeable && radius <= goal) return [];
  if ((permeable ? (radius - channel) / 2 : radius - channel) <= goal)
    return [{ count: 1, ringRadiusMetres: 0 }];
  if (depth > 8) return null;
  let best: Rings | null = null;
  for (let count = 2; count <= mostOnRing; count += 1) {
    if (best !== null && count >= channelCount(best)) break;
    const ringRadiusMetres = innermostRing(radius, permeable, reach, count);
    if (ringRadiusMetres === null) continue;
    const inner = restInside(ringRadiusMetres, count, reach, depth);
    if (inner === null) continue;
    const rings = [{ count, ringRadiusMetres }, ...inner];
    if (best === null || channelCount(rings) < channelCount(best)) best = rings;
  }
  return best;
}

/**
 * Smallest ring radius that covers everything outside the ring; `null` when none does. The hardest point lies midway
 * between two channels, at the wall or, where air comes through the wall, at the goal's distance inside it; it must
 * be within the goal of both channels' edges.
 */
function innermostRing(radius: number, permeable: boolean, reach: Reach, count: number): number | null {
  const { channel, goal } = reach;
  const choice = { radiusMetres: radius, wallPermeable: permeable, channelRadiusMetres: channel };
  const { low, high } = ringRadiusRange({ ...choice, count, withCentral: false });
  const hardest = permeable ? radius - goal : radius;
  const across = hardest * Math.sin(Math.PI / count);
  if (across > goal + channel) return null;
  const along = hardest * Math.cos(Math.PI / count);
  const half = Math.sqrt((goal + channel) ** 2 - across ** 2);
  const ringRadius = Math.max(along - half, low);
  return ringRadius <= Math.min(along + half, high) ? ringRadius : null;
}

/** Rings needed inside a ring, whose channels are near enough to each other to leave no gap between them. */
function restInside(ringRadius: number, count: number, reach: Reach, depth: number): Rings | null {
  const { channel, goal } = reach;
  const across = ringRadius * Math.sin(Math.PI / count);
  const half = Math.sqrt((goal + channel) ** 2 - across ** 2);
  const uncovered = ringRadius * Math.cos(Math.PI / count) - half;
  return uncovered <= 0 ? [] : fewestRings(uncovered + goal, true, reach, depth + 1);
}

function channelCount(rings: Rings): number {
  return rings.reduce((sum, { count }) => sum + count, 0);
}

/** A single ring (with or without a channel on the axis) has its exact best radius: use the slack it leaves. */
function improved(rings: Rings, problem: DesignProblem): Rings {
  const [outer, inner] = rings;
  const withCentral = inner?.ringRadiusMetres === 0;
  if (outer === undefined || outer.ringRadiusMetres === 0 || rings.length > (withCentral ? 2 : 1))
    return rings;
  const best = bestRing({ ...problem, count: outer.count, withCentral });
  return best === null
    ? rings
    : [{ ...outer, ringRadiusMetres: best.layout.ringRadiusMetres }, ...rings.slice(1)];
}

function finish(rings: Rings, problem: DesignProblem): ChannelDesign {
  const { radiusMetres, wallPermeable, channelRadiusMetres } = problem;
  const channels = rings.flatMap(({ count, ringRadiusMetres }, index) =>
    ringRadiusMetres === 0
      ? [centralChannel(channelRadiusMetres)]
      : ring(count, ringRadiusMetres, channelRadiusMetres, (index * Math.PI) / count),
  );
  const layout = { radiusMetres, wallPermeable, channels };
  return { layout, rings, reachedDistanceMetres: farthestPoint(layout).distanceMetres };
}

/** What each number of channels reaches at its best: none, one on the axis, then rings with and without one there. */
export interface LayoutChoice {
  readonly channelCount: number;
  readonly description: string;
  readonly layout: PlanLayout;
  readonly maximumDistanceMetres: number;
}

/** Choices to compare, from no channel to `mostChannels`, so that a grower sees what one more pipe buys. */
export function layoutChoices(problem: DesignProblem, mostChannels = 9): LayoutChoice[] {
  const { radiusMetres, wallPermeable, channelRadiusMetres } = problem;
  const simple = [[], [centralChannel(channelRadiusMetres)]].map((channels): LayoutChoice => {
    const layout = { radiusMetres, wallPermeable, channels };
    const description = channels.length === 0 ? 'no channel' : 'one channel on the axis';
    const maximumDistanceMetres = farthestPoint(layout).distanceMetres;
    return { channelCount: channels.length, description, layout, maximumDistanceMetres };
  });
  const counts = Array.from({ length: Math.max(mostChannels - 1, 0) }, (_, index) => index + 2);
  const rings = counts.flatMap((count) => [
    ringChoice(problem, count, false),
    ringChoice(problem, count - 1, true),
  ]);
  return [...simple, ...rings.filter((choice) => choice !== null)];
}

function ringChoice(problem: DesignProblem, count: number, withCentral: boolean): LayoutChoice | null {
  if (count < 2) return null;
  const best = bestRing({ ...problem, count, withCentral });
  if (best === null) return null;
  const { layout, maximumDistanceMetres } = best;
  const description = `${count} on a ring of radius ${layout.ringRadiusMetres.toFixed(2)} m${withCentral ? ' and one on the axis' : ''}`;
  return {
    channelCount: count + Number(withCentral),
    description,
    layout: planOfRing(layout),
    maximumDistanceMetres,
  };
}
