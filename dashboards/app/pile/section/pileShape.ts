import type { PileFormView } from '../../../../shared/api/types.ts';
import type { PileMethod } from '../../../../shared/yard/method.ts';
import type { Position } from '../../../../shared/yard/yard.ts';

export type PlannedForm = NonNullable<PileFormView['form']>;

/** What the pictures of a pile are drawn from. Metres: x across and y along from the middle, z up from the ground. */
export interface PileShape {
  /** A wall stands upright; a heap is half an ellipse. */
  readonly profile: 'wall' | 'heap';
  /** From above: round, or as long as `halfLength` each way. */
  readonly isRound: boolean;
  readonly halfWidth: number;
  readonly halfLength: number;
  readonly height: number;
  readonly wallHeight: number;
  readonly wall: 'wire' | 'boards' | 'none';
  readonly channels: readonly { readonly x: number; readonly y: number; readonly radius: number }[];
  /** Where the core probe is meant to stand. */
  readonly core: { readonly x: number; readonly y: number };
  /** Made to this plan; false: a usual pile of its method, only depths are known. */
  readonly isPlanned: boolean;
}

interface UsualShape extends Pick<PileShape, 'profile' | 'isRound' | 'halfWidth' | 'halfLength' | 'height'> {
  readonly wall: PileShape['wall'];
}

/** Sizes of a usual pile of each method, for drawing where nobody planned it here. Ours. */
const usual: Readonly<Record<PileMethod, UsualShape>> = {
  'static-cage': shape('wall', true, 0.6, 0.6, 1.2, 'wire'),
  'hot-bin': shape('wall', false, 0.5, 0.5, 1, 'boards'),
  'turned-windrow': shape('heap', false, 1.5, 4, 1.4, 'none'),
  'aerated-static-pile': shape('heap', false, 1.6, 4, 1.6, 'none'),
  'worm-bed': shape('wall', false, 0.6, 1.2, 0.45, 'boards'),
  'curing-heap': shape('heap', false, 1.2, 2.4, 1.2, 'none'),
  'leaf-heap': shape('heap', false, 1, 1.6, 1.2, 'none'),
};

function shape(
  profile: PileShape['profile'],
  isRound: boolean,
  halfWidth: number,
  halfLength: number,
  height: number,
  wall: PileShape['wall'],
): UsualShape {
  return { profile, isRound, halfWidth, halfLength, height, wall };
}

/** Least room below the deepest probe of a pile nobody planned: a tip does not lie on the ground. */
const belowDeepest = 0.25;

/** The pile as planned; else a usual one of its method, tall enough for its probes. */
export function pileShape(
  method: PileMethod,
  form: PlannedForm | null,
  depths: readonly (number | null)[],
): PileShape {
  if (form !== null) return plannedShape(form);
  const { height: least, ...rest } = usual[method];
  const height = Math.max(least, ...depths.map((depth) => (depth ?? 0) + belowDeepest));
  return { ...rest, height, wallHeight: height + 0.05, channels: [], core: { x: 0, y: 0 }, isPlanned: false };
}

function plannedShape(form: PlannedForm): PileShape {
  const { outline } = form;
  const isRound = outline.kind === 'circle';
  return {
    profile: 'wall',
    isRound,
    halfWidth: isRound ? outline.radius : outline.length / 2,
    halfLength: isRound ? outline.radius : outline.width / 2,
    height: form.fillHeight,
    wallHeight: Math.max(form.wallHeight, form.fillHeight),
    wall: form.wallPermeable ? 'wire' : 'boards',
    channels: form.channels.map(({ xMetres, yMetres, radiusMetres }) => {
      return { x: xMetres, y: yMetres, radius: radiusMetres };
    }),
    core: { x: form.coreProbe?.x ?? 0, y: form.coreProbe?.y ?? 0 },
    isPlanned: true,
  };
}

/** Height of the surface at a distance from the middle. */
export function surfaceAt({ profile, halfWidth, height }: PileShape, across: number): number {
  if (profile === 'wall') return height;
  return height * Math.sqrt(Math.max(0, 1 - (across / halfWidth) ** 2));
}

/** A probe's tip: across the cut, up from the ground, and from above. */
export interface Spot {
  readonly across: number;
  readonly up: number;
  readonly x: number;
  readonly y: number;
}

/** How far out each position lies, as a share of the way from the core to the wall. */
const outward: Readonly<Record<Position, number>> = { core: 0, shoulder: 0.5, edge: 0.86, base: 0.2, air: 1 };
/** Where no depth was said, as a share of the height below the surface. */
const usualDepth: Readonly<Record<Position, number>> = {
  core: 0.5,
  shoulder: 0.4,
  edge: 0.3,
  base: 0.88,
  air: 0,
};
/** Two at one position stand this far apart, as a share of the width. */
const apart = 0.3;

/**
 * Where a probe's tip is: its depth straight down from the surface, as it was entered; its place across from its position,
 * since nobody measures that. `before` counts those at the same position drawn already.
 */
export function spotOf(
  pile: PileShape,
  position: Position,
  depthMetres: number | null,
  before: number,
): Spot {
  const { halfWidth, core } = pile;
  // Cores on one side, what lies further out on the other, so that a line of probes reads from left to right.
  const direction = position === 'base' ? -1 : 1;
  const coreAcross = pile.isRound ? Math.hypot(core.x, core.y) : core.x;
  const share = outward[position];
  const start = coreAcross + direction * share * (halfWidth - direction * coreAcross);
  const step = apart * halfWidth * Math.ceil(before / 2) * (before % 2 === 1 ? -1 : 1);
  const across = Math.max(-halfWidth * 0.95, Math.min(halfWidth * 0.95, start + step));
  const surface = surfaceAt(pile, across);
  const depth = depthMetres ?? usualDepth[position] * surface;
  const angle = pile.isRound ? Math.atan2(core.y, core.x) : 0;
  return {
    across,
    up: Math.max(0, surface - depth),
    x: pile.isRound ? across * Math.cos(angle) : across,
    y: pile.isRound ? across * Math.sin(angle) : core.y,
  };
}

/** A channel as the cut shows it: through it, or standing behind it. */
export interface CutChannel {
  readonly left: number;
  readonly right: number;
  readonly isCut: boolean;
}

/** The cut runs through the middle and the core probe (round), or across at the core probe (square). */
export function cutChannels({ channels, isRound, core }: PileShape): CutChannel[] {
  const angle = isRound ? Math.atan2(core.y, core.x) : 0;
  return channels.map(({ x, y, radius }) => {
    const across = x * Math.cos(angle) + y * Math.sin(angle);
    const away = Math.abs((isRound ? y : y - core.y) * Math.cos(angle) - x * Math.sin(angle));
    const isCut = away < radius;
    const half = isCut ? Math.sqrt(radius ** 2 - away ** 2) : radius;
    return { left: across - half, right: across + half, isCut };
  });
}
