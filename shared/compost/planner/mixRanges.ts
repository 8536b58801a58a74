import type { Part } from '../mix/ingredient.ts';
import { partOfLine } from './amounts.ts';
import { figureOf, isWater } from './figures.ts';
import { type MixFigures, mixFigures } from './mixFigures.ts';
import { type FigureName, figureNames, type Plan, type PlanLine, packingRange } from './plan.ts';

export const gaugedNames = ['carbonToNitrogen', 'moistureFraction', 'freeAirSpace', 'bulkDensity'] as const;
export type GaugedName = (typeof gaugedNames)[number];

export interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export type MixRanges = Readonly<Record<GaugedName, Ranged | null>>;

export interface PlannedMix {
  readonly parts: readonly Part[];
  /** What keeps a line from counting, by its key. */
  readonly problems: ReadonlyMap<string, string>;
  readonly figures: MixFigures | null;
  readonly ranges: MixRanges | null;
}

/** The plan's mix with the range its ingredients' ranges give it. */
export function plannedMix(plan: Plan): PlannedMix {
  const problems = new Map<string, string>();
  const parts: Part[] = [];
  for (const line of plan.lines) {
    const { part, problem } = partOfLine(line, plan);
    if (part) parts.push(part);
    if (problem !== null) problems.set(line.key, problem);
  }
  const figures = mixFigures(parts, plan.packingFraction);
  return { parts, problems, figures, ranges: figures === null ? null : rangesOf(plan, figures) };
}

/**
 * How far the mix may be off: each figure of each ingredient is moved to the ends of its range alone, and the shifts
 * are added as squares, upward and downward apart: numbers that are off independently seldom all err the same way.
 */
function rangesOf(plan: Plan, middle: MixFigures): MixRanges {
  const moves = [...figureMoves(plan), ...packingMoves(plan)];
  const rangeOf = (name: GaugedName): Ranged | null => {
    const value = middle[name];
    if (value === null) return null;
    let [up, down] = [0, 0];
    for (const pair of moves) {
      const shifts = pair.map((figures) => (figures?.[name] ?? value) - value);
      up += Math.max(0, ...shifts) ** 2;
      down += Math.min(0, ...shifts) ** 2;
    }
    const ceiling = name === 'moistureFraction' || name === 'freeAirSpace' ? 1 : Number.POSITIVE_INFINITY;
    return {
      value,
      low: Math.max(0, value - Math.sqrt(down)),
      high: Math.min(ceiling, value + Math.sqrt(up)),
    };
  };
  return {
    carbonToNitrogen: rangeOf('carbonToNitrogen'),
    moistureFraction: rangeOf('moistureFraction'),
    freeAirSpace: rangeOf('freeAirSpace'),
    bulkDensity: rangeOf('bulkDensity'),
  };
}

function figureMoves(plan: Plan): (MixFigures | null)[][] {
  return plan.lines
    .filter((line) => !isWater(line))
    .flatMap((line) => figureNames.map((name) => moved(plan, line, name)))
    .filter((pair) => pair.length > 0);
}

function moved(plan: Plan, line: PlanLine, name: FigureName): (MixFigures | null)[] {
  const { low, high } = figureOf(line, name);
  if (low === null || high === null) return [];
  return [low, high].map((end) => {
    const shifted = { ...line, own: { ...line.own, [name]: end } };
    return figuresOf({ ...plan, lines: plan.lines.map((each) => (each.key === line.key ? shifted : each)) });
  });
}

function packingMoves(plan: Plan): (MixFigures | null)[][] {
  const ends = [packingRange.low, packingRange.high].map((packingFraction) =>
    figuresOf({ ...plan, packingFraction }),
  );
  return [ends];
}

function figuresOf(plan: Plan): MixFigures | null {
  const parts = plan.lines.flatMap((line) => partOfLine(line, plan).part ?? []);
  return mixFigures(parts, plan.packingFraction);
}
