import type { Ingredient, Part } from '../mix/ingredient.ts';
import type { Compromise, MixProblem } from '../mix/mixSystem.ts';
import { solveMix } from '../mix/solveMix.ts';
import { emptyAims, goalsOf } from './aims.ts';
import { inUnit, kilogramsPerLitre, partOfLine, weighBucket } from './amounts.ts';
import { readLine } from './lineIngredient.ts';
import { packed, packedParts } from './mixFigures.ts';
import type { Plan, PlanLine } from './plan.ts';
import { type Help, whatWouldHelp } from './whatWouldHelp.ts';

/** Amounts for the lines that asked for one, wet kg by line key. */
export type FoundAmounts = ReadonlyMap<string, number>;

export type Finding =
  | { readonly kind: 'not ready'; readonly why: string }
  | { readonly kind: 'found'; readonly amounts: FoundAmounts }
  | {
      readonly kind: 'infeasible';
      readonly why: string;
      /** Mixes that miss one aim, nearest first: what is missed, and the amounts (lines left out get 0). */
      readonly compromises: readonly { readonly words: Compromise; readonly amounts: FoundAmounts }[];
      readonly help: readonly Help[];
    };

/** Works out one to three unknown amounts from as many aims; what is in the way is said in plain words. */
export function findAmounts(plan: Plan, containerCubicMetres: number): Finding {
  const asked = plan.lines.filter(({ find }) => find);
  const notReady = whyNotReady(plan, asked, goalsOf(plan, containerCubicMetres).length);
  if (notReady !== null) return { kind: 'not ready', why: notReady };
  const problem = problemOf(plan, asked, containerCubicMetres);
  if (typeof problem === 'string') return { kind: 'not ready', why: problem };
  const answer = solveMix(problem);
  if (answer.feasible) return { kind: 'found', amounts: amountsOf(asked, problem.unknowns, answer.parts) };
  return {
    kind: 'infeasible',
    why: answer.why,
    compromises: answer.compromises.map((words) => {
      return { words, amounts: amountsOf(asked, problem.unknowns, words.parts) };
    }),
    help: whatWouldHelp(problem),
  };
}

const most = 3;

function whyNotReady(plan: Plan, asked: readonly PlanLine[], goalCount: number): string | null {
  const empty = emptyAims(plan);
  if (empty.length > 0) return 'An aim is ticked but has no number.';
  if (asked.length === 0) return 'Tick "work out" beside one, two or three ingredients.';
  if (asked.length > most) return `${asked.length} amounts are to be worked out; at most ${most} can be.`;
  if (goalCount === asked.length) return null;
  const amounts = asked.length === 1 ? '1 amount' : `${asked.length} amounts`;
  const aims = goalCount === 1 ? '1 aim is' : `${goalCount} aims are`;
  const advice =
    goalCount < asked.length
      ? 'Tick another aim, or type an amount yourself.'
      : 'Untick an aim, or work out one more amount.';
  return `Each amount to work out needs one aim: ${amounts} to find, but ${aims} ticked. ${advice}`;
}

/** The solver's problem, packed as the pile will lie; or what is missing for it. */
function problemOf(
  plan: Plan,
  asked: readonly PlanLine[],
  containerCubicMetres: number,
): MixProblem | string {
  const goals = goalsOf(plan, containerCubicMetres);
  const fixed: Part[] = [];
  const unknowns: Ingredient[] = [];
  for (const line of plan.lines) {
    const reading = readLine(line);
    if (reading.ingredient === null) return reading.problem;
    const { part, problem } = line.find ? { part: null, problem: null } : partOfLine(line, plan);
    if (problem !== null) return problem;
    const needsDensity = goals.some(({ kind }) => kind === 'volume' || kind === 'free-air-space');
    const counts = line.find || (part?.wetKilograms ?? 0) > 0;
    if (needsDensity && counts && kilogramsPerLitre(reading.ingredient) === null)
      return weighBucket(reading.ingredient.name);
    if (line.find) unknowns.push(packed(reading.ingredient, plan.packingFraction));
    else if (part !== null) fixed.push(part);
  }
  if (asked.length !== unknowns.length) return 'An ingredient cannot be read.';
  return { fixed: packedParts(fixed, plan.packingFraction), unknowns, goals };
}

/** Parts come back as the same ingredient objects that were asked; one left out of a compromise gets nothing. */
function amountsOf(
  asked: readonly PlanLine[],
  unknowns: readonly Ingredient[],
  parts: readonly Part[],
): FoundAmounts {
  return new Map(
    asked.map(({ key }, index) => {
      const part = parts.find(({ ingredient }) => ingredient === unknowns[index]);
      return [key, part?.wetKilograms ?? 0];
    }),
  );
}

/** The plan with amounts filled in, in each line's own unit (kg where a volume cannot be told). */
export function withAmounts(plan: Plan, amounts: FoundAmounts): Plan {
  const lines = plan.lines.map((line) => {
    const kilograms = amounts.get(line.key);
    const { ingredient } = readLine(line);
    if (kilograms === undefined || ingredient === null) return line;
    const inOwn = inUnit(kilograms, line.unit, ingredient, plan);
    if (inOwn === null) return { ...line, unit: 'kilogram' as const, amount: rounded(kilograms) };
    return { ...line, amount: rounded(inOwn) };
  });
  return { ...plan, lines };
}

/** Four figures: finer than any scale in a yard, and the aim still comes out as asked. */
function rounded(value: number): number {
  return Number(value.toPrecision(4));
}
