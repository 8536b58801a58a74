import { requireBetween, requirePositive } from '../allowed.ts';
import { bestRing } from './bestRing.ts';
import { farthestPoint } from './farthestPoint.ts';
import { centralChannel, defaultMaximumDistanceMetres, type PlanLayout, ring } from './layout.ts';
import { type Candidate, planOfRing, ringCandidates, ringRadiusRange } from './ringFormulas.ts';

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
  const rings = fewestRings(radiusMetres, wallPermeable, channelRadiusMetres, goal, 0);
  return rings === null ? null : finish(improved(rings, problem), problem);
}

/** Rings for a disc of this radius; the depth bounds the number of rings. */
function fewestRings(
  radius: number,
  permeable: boolean,
  channel: number,
  goal: number,
  depth: number,
): Rings | null {
  if (permeable && radius <= goal) return [];
  if ((permeable ? (radius - channel) / 2 : radius - channel) <= goal)
    return [{ count: 1, ringRadiusMetres: 0 }];
  if (depth > 8) return null;
  let best: Rings | null = null;
  for (let count = 2; count <= mostOnRing; count += 1) {
    if (best !== null && count >= channelCount(best)) break;
    const outer = innermostRing(radius, permeable, channel, goal, count);
    if (outer === null) continue;
    const inner = restInside(outer, count, channel, goal, depth);
    if (inner === null) continue;
    const rings = [{ count, ringRadiusMetres: outer }, ...inner];
    if (best === null || channelCount(rings) < channelCount(best)) best = rings;
  }
  return best;
}

/** Smallest ring radius at which everything outside the ring is near enough to air; `null` when none is. */
function innermostRing(
  radius: number,
  permeable: boolean,
  channel: number,
  goal: number,
  count: number,
): number | null {
  const choice = {
    radiusMetres: radius,
    wallPermeable: permeable,
    channelRadiusMetres: channel,
    count,
    withCentral: false,
  };
  const { low, high } = ringRadiusRange(choice);
  if (low > high) return null;
  const isCovered = (ringRadiusMetres: number) =>
    outerCandidate(ringCandidates({ ...choice, ringRadiusMetres }), permeable).distanceMetres <= goal;
  const radii = Array.from({ length: 401 }, (_, step) => low + ((high - low) * step) / 400);
  return radii.find(isCovered) ?? null;
}

function outerCandidate(candidates: readonly Candidate[], permeable: boolean): Candidate {
  const where = permeable ? 'between ring and wall' : 'wall';
  return candidates.find((candidate) => candidate.where === where)!;
}

/** Rings needed inside a ring; `null` when the ring leaves gaps between its own channels. */
function restInside(
  ringRadius: number,
  count: number,
  channel: number,
  goal: number,
  depth: number,
): Rings | null {
  const across = ringRadius * Math.sin(Math.PI / count);
  const reach = goal + channel;
  if (across > reach) return null;
  const uncovered = ringRadius * Math.cos(Math.PI / count) - Math.sqrt(reach ** 2 - across ** 2);
  if (uncovered <= 0) return [];
  return fewestRings(uncovered + goal, true, channel, goal, depth + 1);
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
