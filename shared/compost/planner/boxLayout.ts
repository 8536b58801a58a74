import type { Channel } from '../geometry/layout.ts';

/** Plan of a pile in a rectangular box, its middle at the origin, length along x. Metres. */
export interface BoxPlan {
  readonly length: number;
  readonly width: number;
  readonly wallPermeable: boolean;
  readonly channels: readonly Channel[];
}

export interface BoxPoint {
  readonly x: number;
  readonly y: number;
  /** Infinite when the plan has no air at all. */
  readonly distance: number;
}

/** Distance in plan to the wall (when air comes through it) or the edge of the nearest channel; negative inside one. */
export function boxDistanceToAir(plan: BoxPlan, x: number, y: number): number {
  const toWall = Math.min(plan.length / 2 - Math.abs(x), plan.width / 2 - Math.abs(y));
  let nearest = plan.wallPermeable ? toWall : Number.POSITIVE_INFINITY;
  for (const { xMetres, yMetres, radiusMetres } of plan.channels)
    nearest = Math.min(nearest, Math.hypot(x - xMetres, y - yMetres) - radiusMetres);
  return nearest;
}

interface Cell {
  readonly x: number;
  readonly y: number;
  readonly halfLength: number;
  readonly halfWidth: number;
}

/**
 * The point farthest from air, to within `tolerance` metres: rectangles are quartered only where the maximum can still
 * be, since the distance grows no faster than one metre a metre. Middle point for a box without any air.
 */
export function boxFarthest(plan: BoxPlan, tolerance = 1e-3): BoxPoint {
  if (!plan.wallPermeable && plan.channels.length === 0)
    return { x: 0, y: 0, distance: Number.POSITIVE_INFINITY };
  const distanceAt = (x: number, y: number) => boxDistanceToAir(plan, x, y);
  let best: BoxPoint = { x: 0, y: 0, distance: distanceAt(0, 0) };
  let cells: Cell[] = [{ x: 0, y: 0, halfLength: plan.length / 2, halfWidth: plan.width / 2 }];
  while (cells.length > 0) {
    const looked = cells.map((cell) => ({ cell, distance: distanceAt(cell.x, cell.y) }));
    for (const { cell, distance } of looked)
      if (distance > best.distance + 1e-9) best = { x: cell.x, y: cell.y, distance };
    cells = looked
      .filter(
        ({ cell, distance }) =>
          distance + Math.hypot(cell.halfLength, cell.halfWidth) > best.distance + tolerance,
      )
      .flatMap(({ cell }) => quarters(cell));
  }
  return best;
}

function quarters({ x, y, halfLength, halfWidth }: Cell): Cell[] {
  const [dx, dy] = [halfLength / 2, halfWidth / 2];
  return [-dy, dy].flatMap((up) =>
    [-dx, dx].map((along) => ({ x: x + along, y: y + up, halfLength: dx, halfWidth: dy })),
  );
}

export interface BoxRows {
  readonly along: number;
  readonly across: number;
}

export interface BoxDesign extends BoxRows {
  readonly plan: BoxPlan;
  readonly farthest: BoxPoint;
}

/** Rows drawn together toward the middle, as shares of an even spacing: a permeable wall already airs the outside. */
const spacingShares = [1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55] as const;

/** The best even grid of `along` x `across` channels; null when they would overlap or cut the wall. */
export function bestGrid(
  box: Omit<BoxPlan, 'channels'>,
  channelRadius: number,
  { along, across }: BoxRows,
): BoxDesign | null {
  let best: BoxDesign | null = null;
  for (const share of box.wallPermeable ? spacingShares : ([1] as const)) {
    const pitchX = (box.length / along) * share;
    const pitchY = (box.width / across) * share;
    if ((along > 1 && pitchX < 2 * channelRadius) || (across > 1 && pitchY < 2 * channelRadius)) continue;
    const plan = { ...box, channels: grid(along, across, pitchX, pitchY, channelRadius) };
    const farthest = boxFarthest(plan, comparing);
    if (best === null || farthest.distance < best.farthest.distance) best = { along, across, plan, farthest };
  }
  return best;
}

function grid(
  along: number,
  across: number,
  pitchX: number,
  pitchY: number,
  radiusMetres: number,
): Channel[] {
  const place = (index: number, count: number, pitch: number) => (index - (count - 1) / 2) * pitch;
  return Array.from({ length: along * across }, (_, index) => ({
    xMetres: place(index % along, along, pitchX),
    yMetres: place(Math.floor(index / along), across, pitchY),
    radiusMetres,
  }));
}

/** How finely grids are compared, metres; a design is only taken when it keeps its goal by this much. */
const comparing = 2e-3;

/** Most rows tried each way: a bigger box wants pipes under it or dividing. */
const mostRows = 8;

/** Grids of up to `mostChannels` channels, fewest first, for comparing what one more row buys. */
export function boxGrids(
  box: Omit<BoxPlan, 'channels'>,
  channelRadius: number,
  mostChannels: number,
): BoxDesign[] {
  return gridsUpTo(mostChannels)
    .flatMap((each) => bestGrid(box, channelRadius, each) ?? [])
    .sort(
      (a, b) => a.plan.channels.length - b.plan.channels.length || a.farthest.distance - b.farthest.distance,
    );
}

/** The fewest channels in an even grid that leave nothing farther than `goal` from air; null when no grid does. */
export function designBox(
  box: Omit<BoxPlan, 'channels'>,
  channelRadius: number,
  goal: number,
): BoxDesign | null {
  const bare = { ...box, channels: [] };
  const farthest = boxFarthest(bare);
  if (farthest.distance <= goal) return { along: 0, across: 0, plan: bare, farthest };
  const least = leastChannels(box, channelRadius, goal);
  const rows = gridsUpTo(mostRows * mostRows).filter(({ along, across }) => along * across >= least);
  let found: BoxDesign | null = null;
  for (const each of rows) {
    if (found !== null && each.along * each.across > found.along * found.across) break;
    const design = bestGrid(box, channelRadius, each);
    if (design === null || design.farthest.distance + comparing > goal) continue;
    if (found === null || design.farthest.distance < found.farthest.distance) found = design;
  }
  return found;
}

/** Fewer cannot do: each channel airs a disc, and together the discs must cover what the wall does not air. */
function leastChannels(box: Omit<BoxPlan, 'channels'>, channelRadius: number, goal: number): number {
  const aired = box.wallPermeable ? 2 * goal : 0;
  const left = Math.max(0, box.length - aired) * Math.max(0, box.width - aired);
  return left / (Math.PI * (channelRadius + goal) ** 2);
}

/** Every grid of up to so many channels, fewest first. */
function gridsUpTo(mostChannels: number): BoxRows[] {
  const rows: BoxRows[] = [];
  for (let along = 1; along <= mostRows; along += 1)
    for (let across = 1; across <= mostRows; across += 1)
      if (along * across <= mostChannels) rows.push({ along, across });
  return rows.sort((a, b) => a.along * a.across - b.along * b.across);
}
