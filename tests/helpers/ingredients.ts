import fc from 'fast-check';
import { feedstocks } from '../../shared/compost/mix/feedstocks.ts';
import type { Ingredient, Part } from '../../shared/compost/mix/ingredient.ts';
import { ingredientFromFeedstock, type Measured } from '../../shared/compost/mix/ingredientFromFeedstock.ts';

/** Test help: an ingredient by its table name, with whatever is measured. Throws when the table lacks a value. */
export function tableIngredient(id: string, measured: Measured = {}): Ingredient {
  const feedstock = feedstocks.find((each) => each.id === id);
  if (feedstock === undefined) throw new Error(`no feedstock ${id}`);
  const made = ingredientFromFeedstock(feedstock, measured);
  if (made.ingredient === null) throw new Error(`${id} lacks ${made.missing.join(', ')}`);
  return made.ingredient;
}

const share = (low: number, high: number) =>
  fc
    .integer({ min: Math.round(low * 1000), max: Math.round(high * 1000) })
    .map((thousandths) => thousandths / 1000);

/** Test help: any ingredient that could be, dry straw to wet manure. */
export const anyIngredient: fc.Arbitrary<Ingredient> = fc.record({
  name: fc.constantFrom('A', 'B', 'C'),
  moistureFraction: share(0.02, 0.92),
  carbonFractionDry: share(0.2, 0.55),
  nitrogenFractionDry: share(0.001, 0.12),
  organicFractionDry: share(0.3, 1),
  bulkDensityKilogramsPerCubicMetre: fc.integer({ min: 20, max: 950 }),
  soaksIn: fc.constant(false),
});

/** Test help: some parts of any ingredients. */
export const anyParts: fc.Arbitrary<Part[]> = fc.array(
  fc.record({ ingredient: anyIngredient, wetKilograms: fc.integer({ min: 1, max: 5000 }) }),
  { minLength: 1, maxLength: 6 },
);
