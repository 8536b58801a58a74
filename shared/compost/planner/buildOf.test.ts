import { expect, test } from 'vitest';
import { pileBuildSchema } from '../../yard/build.ts';
import { buildOf } from './buildOf.ts';
import type { MixFigures } from './mixFigures.ts';
import { emptyPlan } from './plan.ts';

const figures: MixFigures = {
  ...{ wetKilograms: 500, dryKilograms: 175, nitrogenKilograms: 3, carbonToNitrogen: 28 },
  ...{ moistureFraction: 0.65, organicFractionDry: 0.9, cubicMetres: 1.1, bulkDensity: 455 },
  ...{ freeAirSpace: 0.42, litresTooMany: 0 },
};

test('writes down size and mix of what is built, the height it fills and no more', () => {
  const box = { ...emptyPlan.container, form: 'box', boxLength: 2, boxWidth: 1.2, height: 1 } as const;
  const build = buildOf(box, figures);
  expect(pileBuildSchema.parse(build)).toEqual(build);
  expect(build).toMatchObject({
    volumeM3: 1.1,
    wetKg: 500,
    carbonToNitrogen: 28,
    freeAirSpaceFraction: 0.42,
  });
  expect(build.leastSideMetres).toBeCloseTo(1.1 / 2.4);
});

test('a mix of unknown volume fills the container', () => {
  const box = { ...emptyPlan.container, form: 'box', boxLength: 2, boxWidth: 1.2, height: 1 } as const;
  expect(buildOf(box, { ...figures, cubicMetres: null })).toMatchObject({
    volumeM3: 2.4,
    leastSideMetres: 1,
  });
});
