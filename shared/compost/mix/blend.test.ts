import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyParts, tableIngredient } from '../../../tests/helpers/ingredients.ts';
import { blend, blendFreeAirSpace } from './blend.ts';
import {
  type FreeAirSpaceFormula,
  filledVolume,
  freeAirSpace,
  freeAirSpaceFormulas,
} from './freeAirSpace.ts';
import { water } from './ingredient.ts';

const formulas = Object.keys(freeAirSpaceFormulas) as FreeAirSpaceFormula[];

describe('a blend of known amounts', () => {
  test('does not depend on the order of the parts, nor on splitting one in two', () => {
    fc.assert(
      fc.property(anyParts, fc.nat(), (parts, turn) => {
        const mix = blend(parts);
        const at = turn % parts.length;
        const turned = blend([...parts.slice(at), ...parts.slice(0, at)]);
        const halves = parts.flatMap((part) => {
          const half = { ...part, wetKilograms: part.wetKilograms / 2 };
          return [half, half];
        });
        for (const other of [turned, blend(halves)]) {
          expect(other.carbonToNitrogen).toBeCloseTo(mix.carbonToNitrogen!, 8);
          expect(other.moistureFraction).toBeCloseTo(mix.moistureFraction, 10);
          expect(other.bulkDensityKilogramsPerCubicMetre).toBeCloseTo(
            mix.bulkDensityKilogramsPerCubicMetre!,
            7,
          );
        }
      }),
    );
  });

  test('conserves mass: water and dry solids, carbon and nitrogen', () => {
    fc.assert(
      fc.property(anyParts, (parts) => {
        const mix = blend(parts);
        const waterKilograms = parts.reduce(
          (sum, part) => sum + part.wetKilograms * part.ingredient.moistureFraction,
          0,
        );
        expect((waterKilograms + mix.dryKilograms) / mix.wetKilograms).toBeCloseTo(1, 12);
        expect(mix.carbonKilograms / mix.nitrogenKilograms).toBeCloseTo(mix.carbonToNitrogen!, 9);
      }),
    );
  });

  test('C:N and moisture lie between those of the parts', () => {
    fc.assert(
      fc.property(anyParts, (parts) => {
        const mix = blend(parts);
        const ratios = parts.map(
          ({ ingredient }) => ingredient.carbonFractionDry / ingredient.nitrogenFractionDry,
        );
        expect(mix.carbonToNitrogen).toBeGreaterThanOrEqual(Math.min(...ratios) * (1 - 1e-9));
        expect(mix.carbonToNitrogen).toBeLessThanOrEqual(Math.max(...ratios) * (1 + 1e-9));
      }),
    );
  });

  test('water soaks in: it adds weight and no volume', () => {
    const straw = { ingredient: tableIngredient('straw-general'), wetKilograms: 100 };
    const wetted = blend([straw, { ingredient: water, wetKilograms: 100 }]);
    expect(wetted.cubicMetres).toBeCloseTo(blend([straw]).cubicMetres!, 12);
    expect(wetted.moistureFraction).toBeCloseTo(0.56, 12);
    expect(wetted.carbonToNitrogen).toBeCloseTo(80, 9);
  });

  test('says null where something is not known, and refuses negative amounts and nothing', () => {
    const coffee = tableIngredient('coffee-grounds-spent');
    expect(blend([{ ingredient: coffee, wetKilograms: 5 }]).bulkDensityKilogramsPerCubicMetre).toBeNull();
    expect(blend([{ ingredient: water, wetKilograms: 5 }]).carbonToNitrogen).toBeNull();
    expect(() => blend([{ ingredient: coffee, wetKilograms: -1 }])).toThrow(/wetKilograms of Coffee.* is -1/);
    expect(() => blend([])).toThrow(/wetKilograms of the mix is 0/);
  });
});

describe('free air space', () => {
  const fraction = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

  test('lies in 0..1 for every bulk density up to solid, and falls as it rises', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...formulas),
        fraction,
        fraction,
        fraction,
        (formula, moisture, organic, share) => {
          const densest = 1 / filledVolume(formula, moisture, organic);
          const space = freeAirSpace(formula, share * densest, moisture, organic);
          expect(space).toBeGreaterThanOrEqual(0);
          expect(space).toBeLessThanOrEqual(1);
          expect(freeAirSpace(formula, share * densest * 0.9, moisture, organic)).toBeGreaterThanOrEqual(
            space,
          );
        },
      ),
    );
  });

  test('more than solid is refused, not clamped', () => {
    expect(() => freeAirSpace('constituent-densities', 1400, 0.6, 0.85)).toThrow(
      /bulkDensity is 1400; allowed is 0 to/,
    );
    expect(() => freeAirSpace('constituent-densities', 500, 60, 0.85)).toThrow('moistureFraction is 60');
  });

  test('packing a blend tighter takes its air', () => {
    const mix = blend([{ ingredient: tableIngredient('leaves-loose-and-dry'), wetKilograms: 100 }]);
    const loose = blendFreeAirSpace('constituent-densities', mix)!;
    const packed = blendFreeAirSpace('constituent-densities', mix, 0.3)!;
    expect(1 - packed).toBeCloseTo((1 - loose) / 0.7, 10);
  });
});
