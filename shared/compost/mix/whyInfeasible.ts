import { type Goal, goalName, goalTerms, goalValueText, reachedValue } from './goal.ts';
import type { Ingredient, Part } from './ingredient.ts';
import { type Compromise, type Infeasible, type MixProblem, partsOf, solveAmounts } from './mixSystem.ts';

/** Explains an answer in which at least one amount is negative. `wanted` are the amounts the arithmetic asks for. */
export function whyNegative(problem: MixProblem, wanted: readonly number[]): Infeasible {
  for (const goal of problem.goals) {
    const why = whyAlone(goal, problem);
    if (why !== null) return { feasible: false, unreachable: goal, why, wanted, compromises: [] };
  }
  const compromises = compromisesOf(problem, wanted);
  const [nearest] = compromises;
  const why = together(problem, wanted, nearest);
  return { feasible: false, unreachable: nearest?.missed ?? null, why, wanted, compromises };
}

/** Explains goals that do not determine the amounts. */
export function whySingular(problem: MixProblem): Infeasible {
  const { fixed, unknowns, goals } = problem;
  const result = (why: string, unreachable: Goal | null = null): Infeasible => {
    return { feasible: false, unreachable, why, wanted: null, compromises: [] };
  };
  if (fixed.every((part) => part.wetKilograms === 0) && !goals.some((goal) => goalTerms(goal).isTotal))
    return result(
      'Nothing says how much to make: give the weight of one ingredient, or a total weight or volume.',
    );
  for (const goal of goals) {
    if (unknowns.every((each) => pull(goal, each) === 0)) return result(whyUnmoved(goal, problem), goal);
    const why = whyAlone(goal, problem);
    if (why !== null) return result(why, goal);
  }
  return result(
    `For these goals ${listed(unknowns)} act alike, so there is no single answer: decide the amount of one yourself, or replace it with something that differs more.`,
  );
}

/** Why one goal is out of reach whatever the other goals; `null` when it is within reach. */
function whyAlone(goal: Goal, { fixed, unknowns }: MixProblem): string | null {
  const terms = goalTerms(goal);
  const opening = `${sentence(goal)} ${goalValueText(goal, terms.target)} cannot be reached`;
  if (terms.isTotal) {
    const already = reachedValue(terms, fixed);
    return terms.target < already
      ? `${opening}: what is already decided comes to ${goalValueText(goal, already)}.`
      : null;
  }
  const values = reachable(goal, fixed, unknowns);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (values.length === 0 || (terms.target >= low && terms.target <= high)) return null;
  if (low === high) return `${opening}: these ingredients all come to ${goalValueText(goal, low)}.`;
  const nearest =
    terms.target < low ? `not below ${goalValueText(goal, low)}` : `not above ${goalValueText(goal, high)}`;
  return `${opening}: with these ingredients it comes ${nearest}, however much is added.`;
}

/** The goal's quantity of what is fixed and of each unknown alone: any mix of them lies between the extremes. */
function reachable(goal: Goal, fixed: readonly Part[], unknowns: readonly Ingredient[]): number[] {
  const terms = goalTerms(goal);
  const alone = unknowns.map((ingredient) => reachedValue(terms, [{ ingredient, wetKilograms: 1 }]));
  return [reachedValue(terms, fixed), ...alone].filter((value) => !Number.isNaN(value));
}

/** Mixes that leave out an ingredient with a negative amount and give up one goal, smallest miss first. */
function compromisesOf(problem: MixProblem, wanted: readonly number[]): Compromise[] {
  const found: Compromise[] = [];
  for (const [index, amount] of wanted.entries()) {
    if (amount >= 0) continue;
    const unknowns = problem.unknowns.filter((_, each) => each !== index);
    for (const missed of problem.goals) {
      const goals = problem.goals.filter((goal) => goal !== missed);
      const amounts = goals.length === 0 ? [] : solveAmounts({ fixed: problem.fixed, unknowns, goals });
      if (amounts === null || amounts.some((each) => each < 0)) continue;
      const parts = [...problem.fixed, ...partsOf(unknowns, amounts)];
      found.push({ missed, reached: reachedValue(goalTerms(missed), parts), parts });
    }
  }
  return found.filter(({ reached }) => Number.isFinite(reached)).sort((a, b) => missOf(a) - missOf(b));
}

function missOf({ missed, reached }: Compromise): number {
  const { target } = goalTerms(missed);
  return Math.abs(reached - target) / Math.max(Math.abs(target), 1e-9);
}

function together(problem: MixProblem, wanted: readonly number[], nearest: Compromise | undefined): string {
  const removals = problem.unknowns
    .map((ingredient, index) => ({ name: ingredient.name.toLowerCase(), amount: wanted[index]! }))
    .filter(({ amount }) => amount < 0)
    .map(({ name, amount }) => `taking away ${Number((-amount).toPrecision(3))} kg of ${name}`);
  const opening = `These goals cannot be met together: it would take ${removals.join(' and ')}.`;
  if (nearest === undefined) return opening;
  const { missed, reached } = nearest;
  return `${opening} Nearest: ${goalName(missed)} ${goalValueText(missed, reached)} instead of ${goalValueText(missed, goalTerms(missed).target)}, with the other goals met.`;
}

/** Why no unknown pulls a goal's quantity across its target. */
function whyUnmoved(goal: Goal, { fixed, unknowns }: MixProblem): string {
  const terms = goalTerms(goal);
  const target = goalValueText(goal, terms.target);
  const already = reachedValue(terms, fixed);
  if (Math.abs(already - terms.target) < 1e-9)
    return `${sentence(goal)} is ${target} already and stays so however much is added: decide the amount yourself.`;
  if (unknowns.every((each) => terms.part(each) === 0 && terms.of(each) === 0))
    return `${sentence(goal)} cannot be steered: adding ${listed(unknowns)} does not move it.`;
  return `${sentence(goal)} ${target} cannot be reached: adding ${listed(unknowns)} only comes nearer the more is added.`;
}

/** Which way a kilogram of an ingredient pulls on a goal: 0 when it is exactly at the target or says nothing. */
function pull(goal: Goal, ingredient: Ingredient): number {
  const terms = goalTerms(goal);
  const weight = terms.part(ingredient) - (terms.isTotal ? 0 : terms.target) * terms.of(ingredient);
  return Math.abs(weight) < 1e-12 ? 0 : weight;
}

function listed(ingredients: readonly Ingredient[]): string {
  return ingredients.map((ingredient) => ingredient.name.toLowerCase()).join(' and ');
}

function sentence(goal: Goal): string {
  const name = goalName(goal);
  return name[0]!.toUpperCase() + name.slice(1);
}
