import { type FreeAirSpaceFormula, filledVolume } from './freeAirSpace.ts';
import { type Ingredient, type Part, volumePerKilogram } from './ingredient.ts';

/** Something a mix should come to. */
export type Goal =
  | { readonly kind: 'moisture'; readonly fraction: number }
  | { readonly kind: 'carbon-to-nitrogen'; readonly ratio: number }
  | { readonly kind: 'bulk-density'; readonly kilogramsPerCubicMetre: number }
  | { readonly kind: 'free-air-space'; readonly fraction: number; readonly formula: FreeAirSpaceFormula }
  | { readonly kind: 'mass'; readonly kilograms: number }
  | { readonly kind: 'volume'; readonly cubicMetres: number };

/**
 * A goal as arithmetic: what one kg of an ingredient adds to the upper and the lower sum. Ratio goals want
 * sum(part) / sum(of) = target; total goals (mass, volume) have no lower sum and want sum(part) = target.
 */
export interface GoalTerms {
  readonly target: number;
  readonly isTotal: boolean;
  readonly part: (ingredient: Ingredient) => number;
  readonly of: (ingredient: Ingredient) => number;
}

const dry = (ingredient: Ingredient) => 1 - ingredient.moistureFraction;

/** The arithmetic of a goal (eq. 1b, 1d, 1i and section 3; all are linear in the amounts). */
export function goalTerms(goal: Goal): GoalTerms {
  switch (goal.kind) {
    case 'moisture':
      return { target: goal.fraction, isTotal: false, part: (each) => each.moistureFraction, of: () => 1 };
    case 'carbon-to-nitrogen':
      return {
        target: goal.ratio,
        isTotal: false,
        part: (each) => dry(each) * each.carbonFractionDry,
        of: (each) => dry(each) * each.nitrogenFractionDry,
      };
    case 'bulk-density':
      return { target: goal.kilogramsPerCubicMetre, isTotal: false, part: () => 1, of: volumePerKilogram };
    case 'free-air-space':
      return {
        target: goal.fraction,
        isTotal: false,
        part: (each) => volumePerKilogram(each) - filledBy(each, goal.formula),
        of: volumePerKilogram,
      };
    case 'mass':
      return { target: goal.kilograms, isTotal: true, part: () => 1, of: () => 0 };
    case 'volume':
      return { target: goal.cubicMetres, isTotal: true, part: volumePerKilogram, of: () => 0 };
  }
}

function filledBy(ingredient: Ingredient, formula: FreeAirSpaceFormula): number {
  if (ingredient.organicFractionDry === null)
    throw new RangeError(`organicFractionDry of ${ingredient.name} is not known; free air space needs it`);
  return filledVolume(formula, ingredient.moistureFraction, ingredient.organicFractionDry);
}

/** What parts come to in the quantity of a goal; NaN when they say nothing about it (no parts, or water for C:N). */
export function reachedValue(terms: GoalTerms, parts: readonly Part[]): number {
  const total = (term: (ingredient: Ingredient) => number) =>
    parts.reduce((sum, part) => sum + part.wetKilograms * term(part.ingredient), 0);
  return terms.isTotal ? total(terms.part) : total(terms.part) / total(terms.of);
}

const names: Readonly<Record<Goal['kind'], string>> = {
  moisture: 'moisture',
  'carbon-to-nitrogen': 'carbon to nitrogen ratio',
  'bulk-density': 'bulk density',
  'free-air-space': 'free air space',
  mass: 'total weight',
  volume: 'total volume',
};

/** "moisture", "total weight": how people are told which quantity is meant. */
export function goalName(goal: Goal): string {
  return names[goal.kind];
}

/** A value of the goal's quantity with its unit: "66.2 %", "30", "500 kg/m3". */
export function goalValueText(goal: Goal, value: number): string {
  const rounded = (number: number) => String(Number(number.toPrecision(3)));
  switch (goal.kind) {
    case 'moisture':
    case 'free-air-space':
      return `${rounded(value * 100)} %`;
    case 'carbon-to-nitrogen':
      return rounded(value);
    case 'bulk-density':
      return `${rounded(value)} kg/m3`;
    case 'mass':
      return `${rounded(value)} kg`;
    case 'volume':
      return `${rounded(value)} m3`;
  }
}
