import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carbonMonoxideMgPerCubicMetre, carbonMonoxidePpm } from './carbonMonoxide.ts';
import { isBelowClassALimit } from './publishedLimits.ts';
import {
  carbonFromOxygen,
  perGramDayFromPerKilogramHour,
  respirationClass,
  respirationSchemes,
} from './respiration.ts';
import { readSelfHeatingTest } from './selfHeating.ts';
import { judgeWormBed, mayAddWorms } from './worms.ts';

const day = 86_400_000;
const scheme = (id: string) => respirationSchemes.find((one) => one.id === id)!;

describe('vessel test', () => {
  test('the rise is over the room of the same moment, not over a mean', () => {
    const log = [
      { timeMs: 0, sampleCelsius: 30, roomCelsius: 18 },
      { timeMs: 6 * day, sampleCelsius: 31, roomCelsius: 22 },
    ];
    expect(readSelfHeatingTest(log)).toMatchObject({
      riseCelsius: 12,
      roomCelsius: 18,
      band: { name: 'IV' },
    });
  });

  test('a short log that is still rising in a warm room is doubted thrice', () => {
    const log = [
      { timeMs: 0, sampleCelsius: 22, roomCelsius: 25 },
      { timeMs: day, sampleCelsius: 40, roomCelsius: 25 },
    ];
    expect(readSelfHeatingTest(log).doubts).toHaveLength(3);
  });

  test('an empty log is refused', () => {
    expect(() => readSelfHeatingTest([])).toThrow(/at least one reading/);
  });
});

describe('respiration', () => {
  test('schemes disagree, so each class comes with its scheme', () => {
    expect(respirationClass(3, scheme('tmecc'))).toBe('stable');
    expect(respirationClass(3, scheme('ccqc'))).toBe('mature');
    expect(respirationClass(2, scheme('tmecc'))).toBe('stable');
    expect(respirationClass(16, scheme('pas-100'))).toBe('within the limit');
    expect(respirationClass(25.1, scheme('eu-2019-1009'))).toBe('above the limit');
  });

  test('800 mg per kg and hour is 19.2 mg per g and day, or 7.21 mg of carbon', () => {
    expect(perGramDayFromPerKilogramHour(800)).toBeCloseTo(19.2, 9);
    expect(carbonFromOxygen(19.2)).toBeCloseTo(7.21, 2);
  });

  test('a negative rate is refused with its unit', () => {
    expect(() => respirationClass(-1, scheme('ccme'))).toThrow(/mg CO2-C per g organic matter per day/);
  });
});

test('carbon monoxide there and back', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 2000, noNaN: true }),
      fc.integer({ min: -20, max: 60 }),
      (ppm, celsius) => {
        const back = carbonMonoxidePpm(carbonMonoxideMgPerCubicMetre(ppm, celsius), celsius);
        expect(back).toBeCloseTo(ppm, 6);
      },
    ),
  );
});

test.each([
  [3, 0.78, 'too cold', 'act'],
  [8, 0.78, 'cool', 'watch'],
  [12, 0.78, 'acceptable', 'watch'],
  [20, 0.55, 'good', 'act'],
  [20, null, 'good', 'good'],
  [29, 0.78, 'warm', 'watch'],
  [31, 0.78, 'critical', 'act'],
  [35, 0.78, 'lethal', 'lethal'],
] as const)('worms at %f C and moisture %f: %s, %s', (celsius, moisture, heat, verdict) => {
  expect(judgeWormBed(celsius, moisture)).toMatchObject({ heat, verdict });
});

test('worms may go in at 80 F and not above', () => {
  expect([mayAddWorms(26.66), mayAddWorms(26.7)]).toEqual([true, false]);
});

test('Salmonella below 3 is enough where coliforms are not', () => {
  expect(isBelowClassALimit({ faecalColiformMpnPerGram: 5000, salmonellaMpnPer4Grams: 2.9 })).toBe(true);
  expect(isBelowClassALimit({ faecalColiformMpnPerGram: null, salmonellaMpnPer4Grams: null })).toBe(false);
});
