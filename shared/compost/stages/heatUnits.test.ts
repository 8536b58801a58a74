import fc from 'fast-check';
import { expect, test } from 'vitest';
import { meansOf } from '../sanitisation/testPile.ts';
import { dailyMeans, instantsOf } from './dailyMeans.ts';
import { exothermicIndex } from './exothermicIndex.ts';
import { heatUnits } from './heatUnits.ts';

const hour = 3_600_000;
const window = (hours: number) => ({ fromMs: 0, toMs: hours * hour, maximumGapMs: hour });

test('an even rise from 50 to 60 C spends half its time above 55 C, 2.5 C over it on average in all', () => {
  const samples = [
    { timeMs: 0, value: 50 },
    { timeMs: hour, value: 60 },
  ];
  const series = { ...meansOf([]), samples, represents: 'instants' as const };
  const [above] = heatUnits(series, [], window(1), [55]).above;
  expect(above?.hours).toBeCloseTo(0.5, 9);
  expect(above?.areaCelsiusDays).toBeCloseTo(1.25 / 24, 9);
});

test('a hole adds no heat and is reported', () => {
  const whole = meansOf([{ hours: 48, celsius: 60 }]);
  const cut = { ...whole, samples: whole.samples.filter((_, index) => index < 10 || index >= 30) };
  const units = heatUnits(cut, [], window(48));
  expect([units.watchedHours, units.holeHours]).toEqual([28, 20]);
  expect(units.above.find((level) => level.celsius === 55)?.hours).toBe(28);
});

test('degree-days count only where the air is known, and never below the air', () => {
  const series = meansOf([
    { hours: 24, celsius: 40 },
    { hours: 24, celsius: 5 },
  ]);
  const air = Array.from({ length: 36 }, (_, step) => ({ timeMs: step * hour, value: 10 }));
  const units = heatUnits(series, air, window(48));
  expect(units.degreeDaysOverAir).toBeCloseTo(30, 9);
  expect(units.hoursWithAir).toBeLessThan(41);
});

test('hours never rise with the level', () => {
  const values = fc.array(fc.double({ min: 10, max: 85, noNaN: true }), { minLength: 2, maxLength: 60 });
  fc.assert(
    fc.property(values, (celsius) => {
      const series = meansOf(celsius.map((value) => ({ hours: 1, celsius: value })));
      const { above, watchedHours } = heatUnits(series, [], window(60));
      const hours = [watchedHours, ...above.map((level) => level.hours)];
      expect(hours).toEqual([...hours].sort((one, other) => other - one));
    }),
  );
});

test('unmeasured days are reported in the index, not taken as zero', () => {
  const days = [
    { coreCelsius: 50, airCelsius: 15 },
    { coreCelsius: null, airCelsius: 15 },
    { coreCelsius: 55, airCelsius: null },
  ];
  expect(exothermicIndex(days, 40)).toEqual({ index: 35, squared: 1225, daysCounted: 1, daysUnknown: 2 });
});

test('a day that was hardly watched has no mean, and a stretch over midnight is split', () => {
  const core = meansOf([
    { hours: 24, celsius: 50 },
    { hours: 10, celsius: 60 },
  ]);
  const air = instantsOf(
    'air',
    [
      { timeMs: 0, value: 10 },
      { timeMs: 48 * hour, value: 20 },
    ],
    48 * hour,
  );
  const days = dailyMeans(core, air, { fromMs: 0, days: 2, maximumGapMs: hour, leastHours: 18 });
  expect(days).toEqual([
    { coreCelsius: 50, airCelsius: 15 },
    { coreCelsius: null, airCelsius: 15 },
  ]);
});
