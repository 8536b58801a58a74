import { expect, test } from 'vitest';
import { simulateCourse } from './course.ts';
import { measureCourse } from './courseMeasures.ts';
import { type MixFigures, materialFromMix } from './materialFromMix.ts';
import { gardenBin } from './scenarios.ts';
import { steadyWeather } from './weather.ts';

const mix: MixFigures = {
  bulkDensityKgPerM3: 450,
  moistureFraction: 0.6,
  organicFractionDry: 0.85,
  carbonNitrogenRatio: 30,
  startCelsius: 15,
};

function daysHot(carbonNitrogenRatio: number): number {
  const material = materialFromMix({ ...mix, carbonNitrogenRatio });
  const parameters = { ...gardenBin.parameters, material };
  const weatherAt = steadyWeather({ airCelsius: 15 });
  return measureCourse(simulateCourse(parameters, { days: 90, outputStepSeconds: 3600, weatherAt }))
    .daysAbove55;
}

test('the leaner the mix, the fewer days above 55 C', () => {
  const [rich, ordinary, lean] = [daysHot(18), daysHot(30), daysHot(60)];
  expect(rich).toBeGreaterThan(ordinary);
  expect(ordinary).toBeGreaterThan(lean);
  expect(ordinary).toBeGreaterThan(2);
  expect(lean).toBeLessThan(1);
});

test('ratios beyond the table are held at its ends, and nonsense is refused by name', () => {
  expect(materialFromMix({ ...mix, carbonNitrogenRatio: 200 })).toEqual(
    materialFromMix({ ...mix, carbonNitrogenRatio: 60 }),
  );
  expect(materialFromMix(mix).ashFraction).toBeCloseTo(0.15, 12);
  expect(() => materialFromMix({ ...mix, carbonNitrogenRatio: 0 })).toThrow(/carbonNitrogenRatio is 0/);
});
