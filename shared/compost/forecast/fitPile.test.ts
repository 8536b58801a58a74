import { expect, test } from 'vitest';
import type { Sample } from '../../readings/reading.ts';
import { simulateCourse } from '../pileModel/course.ts';
import { freshRichCage, gardenBin, type Scenario } from '../pileModel/scenarios.ts';
import { steadyWeather } from '../pileModel/weather.ts';
import { fitPile, type PileRecord } from './fitPile.ts';
import { forecastPile, usualRequest } from './forecastPile.ts';
import { learntFigures } from './learntFigures.ts';

const dayMs = 86_400_000;

/** A repeatable stream for this file; tests elsewhere use the shared helper. */
function stream(): () => number {
  let state = 12_345;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

function recordOf({ parameters, interventions }: Scenario, days: number): PileRecord {
  const weatherAt = steadyWeather({ airCelsius: 14 });
  const { series } = simulateCourse(parameters, { days, outputStepSeconds: 1800, weatherAt, interventions });
  const core: Sample[] = Array.from(series.coreCelsius, (value, row) => ({ timeMs: row * 1_800_000, value }));
  return { core, air: [], meanAirCelsius: 14, disturbedMs: [], untilMs: days * dayMs };
}

const forecast = (record: PileRecord, horizonDays = 30) =>
  forecastPile(fitPile(record), { ...usualRequest, horizonDays, draws: 100, random: stream() });

test('the fit follows the readings and each figure has an ordered band', () => {
  const record = recordOf(gardenBin, 8);
  const fit = fitPile(record);
  expect(fit.belief.mean[0]).toBeCloseTo(record.core.at(-1)!.value, 0);
  expect(fit.recentErrorKelvin).toBeLessThan(1);
  for (const band of Object.values(learntFigures(fit))) {
    expect(band.low).toBeLessThan(band.middle);
    expect(band.middle).toBeLessThan(band.high);
  }
});

test('the same record and the same stream give the same forecast', () => {
  const record = recordOf(gardenBin, 6);
  expect(forecast(record)).toEqual(forecast(record));
});

test('told the mix, a rich cage is seen to have longer above 55 C to come than a bin; a spent bin has none', () => {
  const toCome = (scenario: Scenario, days: number) =>
    forecast({ ...recordOf(scenario, days), material: scenario.parameters.material }).daysAbove55;
  const [rich, bin] = [toCome(freshRichCage, 12), toCome(gardenBin, 12)];
  expect(rich.low).toBeGreaterThan(bin.low);
  expect(rich.middle).toBeGreaterThan(bin.middle + 3);
  expect(rich.high).toBeGreaterThan(14);
  expect(toCome(gardenBin, 40).high).toBeLessThan(1);
});

test('knowing the mix sharpens what is believed of the heat left', () => {
  const record = recordOf(freshRichCage, 3);
  const width = (extra: Partial<PileRecord>) => {
    const { low, high } = learntFigures(fitPile({ ...record, ...extra })).heatLeftKelvin;
    return Math.log(high / low);
  };
  expect(width({ material: freshRichCage.parameters.material })).toBeLessThan(0.8 * width({}));
});

test('a pile climbing hard may reach a ceiling that a cooling one will not', () => {
  const chance = (days: number) => {
    const fit = fitPile(recordOf(freshRichCage, days));
    return forecastPile(fit, {
      ...usualRequest,
      horizonDays: 5,
      ceilingCelsius: 65,
      draws: 100,
      random: stream(),
    }).ceiling;
  };
  expect(chance(2).probability).toBeGreaterThan(0.8);
  expect(chance(2).days.middle).toBeLessThan(2);
  expect(chance(50).probability).toBeLessThan(0.1);
});

test('a silent probe widens the belief and does not cool the pile', () => {
  const record = recordOf(gardenBin, 6);
  const dead = { ...record, core: record.core.filter((sample) => sample.timeMs < 5 * dayMs) };
  const width = (fit: ReturnType<typeof fitPile>) => fit.belief.covariance.get(0, 0);
  expect(width(fitPile(dead))).toBeGreaterThan(2 * width(fitPile(record)));
  expect(fitPile(dead).belief.mean[0]).toBeGreaterThan(50);
});

test('a jump on a turning day is taken as the turning; the same jump unannounced shakes the belief more', () => {
  const record = recordOf(gardenBin, 7);
  const turnMs = 6 * dayMs;
  const core = record.core.map((s) => (s.timeMs >= turnMs ? { ...s, value: s.value - 12 } : s));
  const loss = (disturbedMs: number[]) =>
    learntFigures(fitPile({ ...record, core, disturbedMs })).lossPerDay.middle;
  const calm = learntFigures(fitPile(record)).lossPerDay.middle;
  expect(Math.abs(Math.log(loss([turnMs]) / calm))).toBeLessThan(Math.abs(Math.log(loss([]) / calm)));
});

test('water: heat dries the estimate, a probe corrects it, and watering raises it', () => {
  const record = recordOf(freshRichCage, 12);
  const moisture = (extra: Partial<PileRecord>) =>
    learntFigures(fitPile({ ...record, ...extra })).moistureFraction;
  const blind = moisture({ builtMoistureFraction: 0.62 });
  expect(blind.middle).toBeLessThan(0.62);
  const told = moisture({ builtMoistureFraction: 0.62, moisture: [{ timeMs: 11.9 * dayMs, value: 0.4 }] });
  expect(Math.abs(told.middle - 0.4)).toBeLessThan(Math.abs(blind.middle - 0.4) / 2);
  const watered = moisture({
    builtMoistureFraction: 0.62,
    addedWater: [{ timeMs: 6 * dayMs, kgPerBuiltKg: 0.1 }],
  });
  expect(watered.middle).toBeGreaterThan(blind.middle + 0.03);
});

test('no core reading is refused by name', () => {
  const record = { core: [], air: [], meanAirCelsius: 10, disturbedMs: [], untilMs: 5 };
  expect(() => fitPile(record)).toThrow(/core has no reading before untilMs 5/);
});
