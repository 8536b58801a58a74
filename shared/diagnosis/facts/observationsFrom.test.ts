import { describe, expect, test } from 'vitest';
import { airAround, courseThrough, startMs, troubledPile, wrote } from '../testing.ts';
import { noFacts } from './facts.ts';
import { squeezeAgrees } from './moistureFacts.ts';
import { observationsFrom, situationFrom } from './observationsFrom.ts';

const core = courseThrough([
  [0, 14],
  [72, 60],
  [216, 30],
]);
const pile = (change: Partial<Parameters<typeof troubledPile>[1]> = {}) =>
  troubledPile(9, { core, ...change });

describe('observationsFrom', () => {
  test('a pile of which nothing is known gives its age and nothing else', () => {
    const bare = noFacts({ nowMs: startMs + 3 * 86_400_000, method: 'static-cage', startedMs: startMs });
    expect(observationsFrom(bare)).toEqual({ ageDays: 3 });
    expect(situationFrom(bare)).toMatchObject({ hottestCelsius: null, moisture: 'unknown', isRising: false });
  });

  test('a squeeze test counts until the pile is watered or five days have gone', () => {
    const tested = wrote('squeeze-test', 150, 2);
    expect(observationsFrom(pile({ journal: [tested] })).squeezeScore).toBe(2);
    expect(observationsFrom(pile({ journal: [tested, wrote('watered', 160, 20)] }))).not.toHaveProperty(
      'squeezeScore',
    );
    expect(observationsFrom(pile({ journal: [wrote('squeeze-test', 90, 2)] }))).not.toHaveProperty(
      'squeezeScore',
    );
  });

  test('what is written for later is not looked at', () => {
    const later = pile({
      journal: [wrote('squeeze-test', 300, 1), wrote('turned', 300), wrote('covered', 300)],
    });
    expect(observationsFrom(later)).toEqual(observationsFrom(pile()));
  });

  test('a moisture estimate stands in only where nobody measured', () => {
    const estimatedMoisture = { low: 0.3, middle: 0.4, high: 0.5 };
    expect(observationsFrom(pile({ estimatedMoisture }))).toHaveProperty('estimatedMoistureFraction');
    const measured = observationsFrom(pile({ estimatedMoisture, moistureFraction: 0.5 }));
    expect(measured).not.toHaveProperty('estimatedMoistureFraction');
    expect(situationFrom(pile({ estimatedMoisture })).moisture).toBe('unknown');
  });

  test('watering every day or two is routine: no work, no trial', () => {
    const routine = Array.from({ length: 5 }, (_, index) => wrote('watered', 100 + 24 * index, 4));
    const seen = observationsFrom(pile({ journal: routine }));
    expect(seen.hoursSinceWork).toBe(216 - 100);
    expect(seen.litresPerM3Week).toBe(20);
  });

  test('litres are not known where nobody has ever written a watering down', () => {
    expect(observationsFrom(pile())).not.toHaveProperty('litresPerM3Week');
  });

  test('a core that merely cools does not seem to follow the air; one in the open does', () => {
    expect(observationsFrom(pile()).followsAir).toBeLessThan(0.05);
    expect(observationsFrom(pile({ core: airAround(12, 9, 7) })).followsAir).toBeGreaterThan(0.8);
  });

  test('the fall of a turn is not the fall of a pulled probe', () => {
    const dropped = courseThrough([
      [0, 14],
      [72, 60],
      [150, 58],
      [151, 44],
      [216, 40],
    ]);
    expect(observationsFrom(pile({ core: dropped })).steepestFallCelsiusPerHour).toBeCloseTo(14, 6);
    const turned = pile({ core: dropped, journal: [wrote('turned', 150)] });
    expect(observationsFrom(turned).steepestFallCelsiusPerHour).toBeLessThan(1);
  });

  test('structured notes are read, the latest counts, other words are left to people', () => {
    const note = (hours: number, words: string) => wrote('note', hours, null, words);
    const journal = [
      note(200, 'smell: earthy'),
      note(205, 'Smell: sour. base: standing'),
      note(207, 'smells odd'),
    ];
    expect(observationsFrom(pile({ journal }))).toMatchObject({ smell: 'sour', baseWater: 'standing' });
    expect(situationFrom(pile({ journal: [note(205, 'smell: burnt')] })).hasSignsOfFire).toBe(true);
  });
});

describe('moisture evidence', () => {
  const evidence = (
    moistureFraction: number | null,
    score: number | null,
    method: 'hot-bin' | 'static-cage',
  ) =>
    situationFrom(
      pile({ method, moistureFraction, journal: score === null ? [] : [wrote('squeeze-test', 210, score)] }),
    ).moisture;

  test.each([
    [0.35, null, 'hot-bin', 'too-dry'],
    [0.55, null, 'hot-bin', 'fine'],
    [0.68, null, 'hot-bin', 'too-wet'],
    [0.68, null, 'static-cage', 'fine'],
    [0.5, null, 'static-cage', 'too-dry'],
    [null, 1, 'hot-bin', 'too-dry'],
    [null, 4, 'hot-bin', 'too-wet'],
    [0.35, 5, 'hot-bin', 'unknown'],
    [null, null, 'hot-bin', 'unknown'],
  ] as const)('probe %s, squeeze %s, %s: %s', (fraction, score, method, expected) => {
    expect(evidence(fraction, score, method)).toBe(expected);
  });

  test('hand and probe agree when they feel alike', () => {
    expect(squeezeAgrees(3, 0.55, 'hot-bin')).toBe(true);
    expect(squeezeAgrees(3, 0.2, 'hot-bin')).toBe(false);
    expect(squeezeAgrees(5, 0.9, 'hot-bin')).toBe(true);
    expect(squeezeAgrees(1, 0.7, 'hot-bin')).toBe(false);
  });
});
