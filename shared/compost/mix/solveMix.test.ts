import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyIngredient, tableIngredient } from '../../../tests/helpers/ingredients.ts';
import { blend, blendFreeAirSpace } from './blend.ts';
import type { Goal } from './goal.ts';
import { type Ingredient, type Part, water } from './ingredient.ts';
import { solveMix } from './solveMix.ts';

const moisture = (fraction: number): Goal => ({ kind: 'moisture', fraction });
const ratio = (value: number): Goal => ({ kind: 'carbon-to-nitrogen', ratio: value });
const kilograms = (value: number): Goal => ({ kind: 'mass', kilograms: value });

const litter = tableIngredient('broiler-litter');
const leaves = tableIngredient('leaves-loose-and-dry');
const grass = tableIngredient('grass-clippings-loose');
const chips = tableIngredient('shrub-trimmings');
const of = (ingredient: Ingredient, wetKilograms: number): Part => ({ ingredient, wetKilograms });

/** The infeasible answer, or a failure. */
function refused(fixed: Part[], unknowns: Ingredient[], goals: Goal[]) {
  const solution = solveMix({ fixed, unknowns, goals });
  if (solution.feasible) throw new Error(`called feasible with ${solution.amounts}`);
  return solution;
}

describe('amounts from goals', () => {
  test('what is solved blends to the goals again, for any mix that exists', () => {
    const amount = fc.integer({ min: 1, max: 900 });
    const ingredients = fc.tuple(anyIngredient, anyIngredient, anyIngredient);
    let feasible = 0;
    fc.assert(
      fc.property(ingredients, fc.tuple(amount, amount, amount), ([base, first, second], [a, b, c]) => {
        const made = blend([of(base, a), of(first, b), of(second, c), of(water, 50)]);
        const goals = [
          ratio(made.carbonToNitrogen!),
          moisture(made.moistureFraction),
          kilograms(made.wetKilograms),
        ];
        const solution = solveMix({ fixed: [of(base, a)], unknowns: [first, second, water], goals });
        if (!solution.feasible) return; // ingredients too alike to tell apart
        feasible += 1;
        expect(solution.blend.carbonToNitrogen! / made.carbonToNitrogen!).toBeCloseTo(1, 6);
        expect(solution.blend.moistureFraction).toBeCloseTo(made.moistureFraction, 6);
        expect(solution.blend.wetKilograms / made.wetKilograms).toBeCloseTo(1, 6);
      }),
    );
    expect(feasible).toBeGreaterThan(80);
  });

  test('a total weight needs nothing fixed', () => {
    const solution = solveMix({
      fixed: [],
      unknowns: [litter, leaves, water],
      goals: [ratio(30), moisture(0.6), kilograms(800)],
    });
    if (!solution.feasible) throw new Error(solution.why);
    expect(solution.blend.wetKilograms).toBeCloseTo(800, 8);
    expect(solution.blend.carbonToNitrogen).toBeCloseTo(30, 8);
    expect(Math.min(...solution.amounts)).toBeGreaterThan(0);
  });

  test('free air space and volume can be goals', () => {
    const goals: Goal[] = [
      { kind: 'free-air-space', fraction: 0.6, formula: 'constituent-densities' },
      { kind: 'volume', cubicMetres: 1.4 },
    ];
    const solution = solveMix({ fixed: [], unknowns: [tableIngredient('cattle-manure'), chips], goals });
    if (!solution.feasible) throw new Error(solution.why);
    expect(solution.blend.cubicMetres).toBeCloseTo(1.4, 9);
    expect(blendFreeAirSpace('constituent-densities', solution.blend)).toBeCloseTo(0.6, 9);
  });
});

describe('goals that cannot be met', () => {
  test('one goal out of reach is named with how near it comes', () => {
    const { unreachable, why } = refused([of(grass, 100)], [leaves], [ratio(60)]);
    expect(unreachable).toEqual(ratio(60));
    expect(why).toBe(
      'Carbon to nitrogen ratio 60 cannot be reached: with these ingredients it comes not above 54, however much is added.',
    );
    expect(refused([of(leaves, 100)], [litter], [moisture(0.6)]).why).toContain('not above 38 %');
  });

  test('goals that clash say what would have to be taken away and what the nearest mix reaches', () => {
    const { unreachable, why, wanted, compromises } = refused(
      [of(grass, 100)],
      [leaves, water],
      [ratio(30), moisture(0.6)],
    );
    expect(wanted![1]).toBeLessThan(0);
    expect(unreachable).toEqual(moisture(0.6));
    expect(why).toMatch(
      /^These goals cannot be met together: it would take taking away|^These goals cannot be met/,
    );
    expect(compromises[0]!.reached).toBeGreaterThan(0.6);
    expect(blend(compromises[0]!.parts).carbonToNitrogen).toBeCloseTo(30, 8);
  });

  test('a total below what is already there, and nothing to start from', () => {
    expect(refused([of(grass, 100)], [leaves], [kilograms(80)]).why).toBe(
      'Total weight 80 kg cannot be reached: what is already decided comes to 100 kg.',
    );
    expect(refused([], [grass, leaves], [ratio(30), moisture(0.6)]).why).toContain(
      'Nothing says how much to make',
    );
  });

  test('ingredients that act alike, and one that does nothing', () => {
    expect(refused([of(grass, 10)], [leaves, leaves], [ratio(30), moisture(0.6)]).why).toContain('act alike');
    expect(refused([of(grass, 10)], [water], [ratio(30)]).why).toBe(
      'Carbon to nitrogen ratio cannot be steered: adding water does not move it.',
    );
    expect(refused([of(grass, 10)], [leaves], [moisture(0.38)]).why).toContain('only comes nearer');
    expect(refused([of(leaves, 10)], [leaves], [moisture(0.38)]).why).toContain('already');
  });

  test('never answers with a negative amount', () => {
    fc.assert(
      fc.property(
        anyIngredient,
        anyIngredient,
        anyIngredient,
        fc.integer({ min: 10, max: 60 }),
        (base, first, second, goal) => {
          const goals = [ratio(goal), moisture(0.6)];
          const solution = solveMix({ fixed: [of(base, 100)], unknowns: [first, second], goals });
          if (solution.feasible) expect(Math.min(...solution.amounts)).toBeGreaterThanOrEqual(0);
          else expect(solution.why).toMatch(/\.$/);
        },
      ),
    );
  });

  test('a number that cannot be is refused by name', () => {
    const wrong = { ...leaves, moistureFraction: 38 };
    expect(() => solveMix({ fixed: [of(grass, 1)], unknowns: [wrong], goals: [ratio(30)] })).toThrow(
      'moistureFraction of Leaves, loose and dry is 38; allowed is 0 to 1',
    );
    expect(() => solveMix({ fixed: [], unknowns: [leaves], goals: [] })).toThrow(
      /goals has 0 entries; allowed is 1/,
    );
  });
});
