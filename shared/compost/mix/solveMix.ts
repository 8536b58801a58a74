import { type Blend, blend } from './blend.ts';
import { checkIngredient, type Part } from './ingredient.ts';
import { type Infeasible, type MixProblem, partsOf, solveAmounts } from './mixSystem.ts';
import { whyNegative, whySingular } from './whyInfeasible.ts';

export type MixSolution =
  | {
      readonly feasible: true;
      readonly amounts: readonly number[];
      readonly parts: readonly Part[];
      readonly blend: Blend;
    }
  | Infeasible;

/**
 * Finds the unknown amounts (wet kg, in the order given) that meet every goal (eq. 1h as a linear system). A negative
 * or undetermined answer is reported as infeasible with its reason and is never clamped.
 * Throws a `RangeError` on an impossible ingredient, a missing bulk density that a goal needs, or unequal counts.
 */
export function solveMix(problem: MixProblem): MixSolution {
  checkProblem(problem);
  const wanted = solveAmounts(problem);
  if (wanted === null) return whySingular(problem);
  if (wanted.some((amount) => amount < 0)) return whyNegative(problem, wanted);
  const parts = [...problem.fixed, ...partsOf(problem.unknowns, wanted)];
  return { feasible: true, amounts: wanted, parts, blend: blend(parts) };
}

function checkProblem({ fixed, unknowns, goals }: MixProblem): void {
  for (const ingredient of [...fixed.map((part) => part.ingredient), ...unknowns])
    checkIngredient(ingredient);
  if (unknowns.length < 1 || unknowns.length > 3)
    throw new RangeError(`unknowns has ${unknowns.length} ingredients; allowed is 1 to 3`);
  if (goals.length !== unknowns.length)
    throw new RangeError(
      `goals has ${goals.length} entries; allowed is ${unknowns.length}, one for each unknown`,
    );
}
