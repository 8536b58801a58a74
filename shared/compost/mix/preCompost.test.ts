import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyIngredient, tableIngredient } from '../../../tests/helpers/ingredients.ts';
import { preCompost } from './preCompost.ts';

const litter = { ingredient: tableIngredient('broiler-litter'), wetKilograms: 200 };

describe('composting a hot ingredient first', () => {
  test('pools left after 7, 14, 30, 60, 120 days are those of the reference example (pack 4.3)', () => {
    const left = (days: number) => {
      const { poolsBefore, poolsAfter } = preCompost(litter, days, 0.5);
      const before = poolsBefore.fastKilograms + poolsBefore.slowKilograms;
      return (poolsAfter.fastKilograms + poolsAfter.slowKilograms) / before;
    };
    for (const [days, expected] of [
      [7, 0.6709],
      [14, 0.4957],
      [30, 0.3262],
      [60, 0.221],
      [120, 0.1205],
    ] as const)
      expect(left(days)).toBeCloseTo(expected, 4);
  });

  test('100 kg at 60 %, 15 % ash, half the organic matter lost, ends at 41.82 kg at 45 % (pack 5.8)', () => {
    const ingredient = { ...litter.ingredient, moistureFraction: 0.6, organicFractionDry: 0.85 };
    const result = preCompost({ ingredient, wetKilograms: 100 }, 1000, 0.45, { slowRatePerDay: 1 });
    expect(result.part.wetKilograms).toBeCloseTo(41.82, 2);
    expect(result.waterKilogramsLost).toBeCloseTo(41.18, 2);
  });

  test('mass, carbon and nitrogen balance, and ash stays', () => {
    fc.assert(
      fc.property(anyIngredient, fc.integer({ min: 0, max: 400 }), (ingredient, days) => {
        const result = preCompost({ ingredient, wetKilograms: 100 }, days, 0.5);
        const after = result.part.ingredient;
        const dryBefore = 100 * (1 - ingredient.moistureFraction);
        const dryAfter = result.part.wetKilograms * 0.5;
        expect(dryAfter + result.dryKilogramsLost).toBeCloseTo(dryBefore, 9);
        expect(100 - result.waterKilogramsLost - result.dryKilogramsLost).toBeCloseTo(
          result.part.wetKilograms,
          9,
        );
        expect(dryAfter * after.carbonFractionDry + result.carbonKilogramsLost).toBeCloseTo(
          dryBefore * ingredient.carbonFractionDry,
          9,
        );
        expect(dryAfter * after.nitrogenFractionDry + result.nitrogenKilogramsLost).toBeCloseTo(
          dryBefore * ingredient.nitrogenFractionDry,
          9,
        );
        expect(dryAfter * (1 - after.organicFractionDry!)).toBeCloseTo(
          dryBefore * (1 - ingredient.organicFractionDry!),
          9,
        );
      }),
    );
  });

  test('longer first composting leaves less heat for the main pile; no days change nothing but moisture', () => {
    const [none, week, month] = [0, 7, 30].map((days) => preCompost(litter, days, 0.37));
    expect(none!.part.wetKilograms).toBeCloseTo(200, 9);
    expect(none!.part.ingredient.nitrogenFractionDry).toBeCloseTo(0.027, 12);
    expect(week!.heatLeftMegajoules).toBeLessThan(none!.heatLeftMegajoules);
    expect(month!.heatLeftMegajoules).toBeLessThan(week!.heatLeftMegajoules);
    expect(month!.heatLeftMegajoules + month!.heatReleasedMegajoules).toBeCloseTo(
      none!.heatLeftMegajoules,
      8,
    );
  });

  test('refuses what it cannot know', () => {
    const unknown = { ingredient: { ...litter.ingredient, organicFractionDry: null }, wetKilograms: 10 };
    expect(() => preCompost(unknown, 7, 0.5)).toThrow(/organicFractionDry of Broiler litter is not known/);
    expect(() => preCompost(litter, -1, 0.5)).toThrow('days is -1; allowed is 0 or more');
  });
});
