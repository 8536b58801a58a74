import { designChannels, layoutChoices } from '../geometry/channelDesign.ts';
import type { OpenEnds } from '../geometry/distanceToAir.ts';
import { drawCage, type SectionDrawing } from '../geometry/drawing.ts';
import { farthestPoint } from '../geometry/farthestPoint.ts';
import type { Channel, PlanLayout } from '../geometry/layout.ts';
import { type BoxDesign, type BoxPlan, bestGrid, boxFarthest, boxGrids, designBox } from './boxLayout.ts';
import { boxProbe } from './boxProbe.ts';
import type { Container } from './container.ts';
import type { ContainerChoice } from './plan.ts';

/** Where the core probe goes: at the point farthest from air. Metres; x and y from the middle, z above the base. */
export interface CoreProbe {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly distanceToAir: number;
  readonly depthFromTop: number;
  readonly depthFromWall: number;
}

/** One way to stand the channels, for comparing. */
export interface AirOption {
  readonly count: number;
  readonly words: string;
  readonly distance: number;
}

export interface AirLayout {
  readonly channels: readonly Channel[];
  readonly words: string;
  /** Whether nothing in plan is farther from air than was asked. */
  readonly reached: boolean;
  /** Why the asked distance is not kept, when the fewest channels were to be found; null when all is well. */
  readonly problem: string | null;
  readonly planDistance: number;
  readonly probe: CoreProbe;
  readonly section: SectionDrawing;
  readonly sectionLine: readonly [x1: number, y1: number, x2: number, y2: number];
  readonly options: readonly AirOption[];
}

/** Most channels compared one by one. */
const mostCompared = 9;

/** The channels of a container filled to a height, and what follows from them; null when it would have no air at all. */
export function airLayoutOf(
  choice: ContainerChoice,
  container: Container,
  fillHeight: number,
): AirLayout | null {
  const ends = { heightMetres: fillHeight, topOpen: choice.topOpen, baseOpen: choice.baseOpen };
  const chosen =
    container.outline.kind === 'circle'
      ? roundPlan(choice, container.outline.radius)
      : boxPlan(choice, container.outline.length, container.outline.width);
  const hasAir = choice.topOpen || choice.baseOpen || Number.isFinite(chosen.planDistance);
  if (!hasAir) return null;
  const reached = chosen.planDistance <= choice.maximumDistance + 1e-6;
  const drawn = chosen.kind === 'round' ? roundDrawing(chosen.plan, ends) : boxProbe(chosen.plan, ends);
  const { words, planDistance, options } = chosen;
  const problem = reached ? null : notReached(choice);
  return { channels: chosen.plan.channels, words, reached, problem, planDistance, options, ...drawn };
}

function notReached({ channelCount, channelDiameter, maximumDistance }: ContainerChoice): string {
  const wanted = `${maximumDistance.toFixed(2)} m`;
  return channelCount === null
    ? `No arrangement of channels ${Math.round(channelDiameter * 1000)} mm wide keeps everything within ${wanted} of air here. Try wider channels, a smaller pile, or a wall that lets air through.`
    : `With this many channels part of the pile is farther than ${wanted} from air.`;
}

interface Chosen<Kind, Plan> {
  readonly kind: Kind;
  readonly plan: Plan;
  readonly words: string;
  readonly planDistance: number;
  readonly options: readonly AirOption[];
}

function roundPlan(choice: ContainerChoice, radius: number): Chosen<'round', PlanLayout> {
  const { channelDiameter, channelCount, maximumDistance, wallPermeable } = choice;
  const problem = {
    radiusMetres: radius,
    wallPermeable,
    channelRadiusMetres: Math.min(channelDiameter / 2, radius / 2),
    maximumDistanceMetres: maximumDistance,
  };
  const choices = layoutChoices(problem, Math.max(mostCompared, channelCount ?? 0));
  const options = bestPerCount(
    choices.map((each) => ({
      count: each.channelCount,
      words: each.description,
      distance: each.maximumDistanceMetres,
    })),
  );
  const byHand = choices
    .filter((each) => each.channelCount === channelCount)
    .sort((a, b) => a.maximumDistanceMetres - b.maximumDistanceMetres)[0];
  const design = channelCount === null ? designChannels(problem) : null;
  const bare = { radiusMetres: radius, wallPermeable, channels: [] };
  const plan = design?.layout ?? byHand?.layout ?? bare;
  const words = design ? ringWords(design.rings) : (byHand?.description ?? 'no channel');
  return { kind: 'round', plan, words, planDistance: farthestPoint(plan).distanceMetres, options };
}

function ringWords(rings: readonly { readonly count: number; readonly ringRadiusMetres: number }[]): string {
  if (rings.length === 0) return 'no channel';
  return rings
    .map(({ count, ringRadiusMetres }) =>
      ringRadiusMetres === 0
        ? 'one on the axis'
        : `${count} on a ring of radius ${ringRadiusMetres.toFixed(2)} m`,
    )
    .join(' and ');
}

function boxPlan(choice: ContainerChoice, length: number, width: number): Chosen<'box', BoxPlan> {
  const box = { length, width, wallPermeable: choice.wallPermeable };
  const radius = Math.min(choice.channelDiameter / 2, Math.min(length, width) / 4);
  const bare: BoxDesign = {
    along: 0,
    across: 0,
    plan: { ...box, channels: [] },
    farthest: boxFarthest({ ...box, channels: [] }),
  };
  const grids = [bare, ...boxGrids(box, radius, Math.max(mostCompared, choice.channelCount ?? 0))];
  const byHand = grids
    .filter(({ plan }) => plan.channels.length === choice.channelCount)
    .sort((a, b) => a.farthest.distance - b.farthest.distance)[0];
  const auto = choice.channelCount === null ? designBox(box, radius, choice.maximumDistance) : null;
  const chosen =
    auto ?? byHand ?? bestGrid(box, radius, { along: choice.channelCount ?? 1, across: 1 }) ?? bare;
  const options = bestPerCount(
    grids.map((each) => ({
      count: each.plan.channels.length,
      words: gridWords(each),
      distance: each.farthest.distance,
    })),
  );
  const { plan, farthest } = chosen;
  return { kind: 'box', plan, words: gridWords(chosen), planDistance: farthest.distance, options };
}

function gridWords({ along, across, plan }: BoxDesign): string {
  if (plan.channels.length === 0) return 'no channel';
  if (plan.channels.length === 1) return 'one in the middle';
  if (across === 1) return `${along} in a row`;
  return along === 1 ? `${across} in a row across` : `${across} rows of ${along}`;
}

function bestPerCount(options: readonly AirOption[]): AirOption[] {
  const best = new Map<number, AirOption>();
  for (const option of options) {
    const before = best.get(option.count);
    if (before === undefined || option.distance < before.distance) best.set(option.count, option);
  }
  return [...best.values()].sort((a, b) => a.count - b.count);
}

function roundDrawing(
  plan: PlanLayout,
  ends: OpenEnds,
): Pick<AirLayout, 'probe' | 'section' | 'sectionLine'> {
  const { place, section, plan: drawn } = drawCage(plan, ends);
  const { x1, y1, x2, y2 } = drawn.sectionLine;
  return {
    section,
    sectionLine: [x1, y1, x2, y2],
    probe: {
      x: place.xMetres,
      y: place.yMetres,
      z: place.zMetres,
      distanceToAir: place.distanceToAirMetres,
      depthFromTop: place.depthFromTopMetres,
      depthFromWall: place.depthFromWallMetres,
    },
  };
}
