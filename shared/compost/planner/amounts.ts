import { type Ingredient, type Part, partByVolume } from '../mix/ingredient.ts';
import { readLine } from './lineIngredient.ts';
import type { AmountUnit, Plan, PlanLine } from './plan.ts';

type Measures = Pick<Plan, 'bucketLitres' | 'barrowLitres'>;

/** Litres in one of a volume unit. */
export function litresIn(unit: Exclude<AmountUnit, 'kilogram'>, measures: Measures): number {
  if (unit === 'bucket') return measures.bucketLitres;
  return unit === 'barrow' ? measures.barrowLitres : 1;
}

/** kg in a litre of an ingredient, loose; null when nobody has weighed a bucket of it. */
export function kilogramsPerLitre(ingredient: Ingredient): number | null {
  if (ingredient.soaksIn) return 1;
  const density = ingredient.bulkDensityKilogramsPerCubicMetre;
  return density === null ? null : density / 1000;
}

/** A weight in a unit; null when that unit is a volume and the bulk density is not known. */
export function inUnit(
  kilograms: number,
  unit: AmountUnit,
  ingredient: Ingredient,
  measures: Measures,
): number | null {
  if (unit === 'kilogram') return kilograms;
  const density = kilogramsPerLitre(ingredient);
  return density === null ? null : kilograms / density / litresIn(unit, measures);
}

export type LinePart =
  | { readonly part: Part; readonly problem: null }
  | { readonly part: null; readonly problem: string | null };

/** A line as a weighed part. A line without amount is no part and no problem. */
export function partOfLine(line: PlanLine, measures: Measures): LinePart {
  const reading = readLine(line);
  if (reading.ingredient === null) return { part: null, problem: reading.problem };
  if (line.amount === null) return { part: null, problem: null };
  const { ingredient } = reading;
  if (line.unit === 'kilogram') return { part: { ingredient, wetKilograms: line.amount }, problem: null };
  if (kilogramsPerLitre(ingredient) === null) return { part: null, problem: weighBucket(ingredient.name) };
  const litres = line.amount * litresIn(line.unit, measures);
  return { part: partByVolume(ingredient, litres / 1000), problem: null };
}

/** How to get a bulk density that nobody has. */
export function weighBucket(name: string): string {
  return `${name}: its bulk density is not known. Give the amount in kg, or weigh a full bucket and type kg/m3 (kg in the bucket x 1000 / litres).`;
}
