import { describe, expect, test } from 'vitest';
import type { PastHour } from './pastHour.ts';
import { ReplayCancelled, replayPast } from './replay.ts';
import { compareReports, reportOf } from './replayReport.ts';
import { detectTroubles } from './replayTroubles.ts';
import { ceilingLimits, pastOf } from './testing/testPast.ts';
import { course, defaultLimits, hourMs, startMs, testFacts } from './testing/testPile.ts';

const days = (count: number): number => count * 24 * hourMs;

/** Warm, then three hours up to 73 C and back on day 3, and a touch of 71.4 C for half an hour on day 5. */
const hill = (hours: number): number => {
  if (hours >= 72 && hours < 80) return 60 + 13 * Math.sin((Math.PI * (hours - 72)) / 8);
  if (hours >= 120 && hours < 120.5) return 71.4;
  return 60;
};
const past = pastOf(testFacts(), course('a', 0, 168, hill, 5), startMs + days(7));
const counted = { fromMs: startMs, toMs: startMs + days(7), textsFrom: 'medium' } as const;
const report = (limits = defaultLimits, of = past) =>
  reportOf(replayPast(of, limits), detectTroubles(of), counted);

describe('troubles found by plain rules', () => {
  test('are stretches beyond a fixed level, not touches of it', () => {
    const found = detectTroubles(past).map(({ name, startMs: atMs }) => [name, (atMs - startMs) / hourMs]);
    expect(found.length).toBe(1);
    expect(found[0]![0]).toBe('core above 71 C for an hour');
    expect(found[0]![1]).toBeGreaterThan(74);
    expect(found[0]![1]).toBeLessThan(76);
  });

  test('do not reach over a gap in which nobody knows', () => {
    const twoTouches = [...course('a', 0, 0.5, () => 72), ...course('a', 24, 24.5, () => 72)];
    expect(detectTroubles(pastOf(testFacts(), twoTouches, startMs + days(2)))).toEqual([]);
  });
});

describe('a report', () => {
  test('says which alarms came, how long they stood and which limits judged them', () => {
    const { alarms, conditions, limitsVersion } = report(ceilingLimits({ onDelayMinutes: 10 }, 4));
    const ceiling = alarms.filter(({ condition }) => condition === 'too-hot-ceiling');
    expect([limitsVersion, ceiling.length]).toEqual([4, 2]);
    const count = conditions.find(({ condition }) => condition === 'too-hot-ceiling')!;
    expect(count.longestMinutes).toBeGreaterThan(120);
    expect(count.totalMinutes).toBeGreaterThan(count.longestMinutes);
  });

  test('counts warning back from the trouble and calls what nothing warned of missed', () => {
    expect(
      report(ceilingLimits({ limitCelsius: 66, onDelayMinutes: 0 })).warnings[0]!.minutesBefore,
    ).toBeGreaterThan(30);
    const deaf = {
      version: 1,
      overrides: Object.fromEntries(
        ['too-hot-ceiling', 'too-hot-early-notice', 'too-hot-heading-there'].map((id) => [
          id,
          { enabled: false },
        ]),
      ),
    };
    const { warnings, missed } = report(deaf);
    expect([warnings[0]!.minutesBefore, missed]).toEqual([null, 1]);
  });

  test('texts a week follow the least priority that is texted', () => {
    const result = replayPast(past, defaultLimits);
    const texts = (textsFrom: 'highest' | 'high' | 'low') =>
      reportOf(result, [], { ...counted, textsFrom }).textsPerWeek;
    expect(texts('highest')).toBe(0);
    expect(texts('high')).toBeGreaterThan(0);
    expect(texts('low')).toBeGreaterThanOrEqual(texts('high'));
  });
});

test('two sets of limits are compared alarm by alarm and warning by warning', () => {
  const current = report(ceilingLimits({ onDelayMinutes: 0 }));
  const calmer = report(ceilingLimits({ onDelayMinutes: 60 }, 2));
  const found = compareReports(calmer, current);
  expect(found.gone.map(({ condition }) => condition)).toContain('too-hot-ceiling');
  expect(found.come).toEqual([]);
  expect([found.newlyMissed, found.textsMore]).toEqual([[], -1]);
});

test('a replay says how far it is and stops when asked', () => {
  const shares: number[] = [];
  replayPast(past, defaultLimits, { onProgress: (share) => shares.push(share) });
  expect(shares.at(-1)).toBe(1);
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  expect(() => replayPast(past, defaultLimits, { isCancelled: () => true })).toThrow(ReplayCancelled);
});

test('hours before the columns begin count in what is known of the pile’s life', () => {
  const late = course('a', 10 * 24, 11 * 24, () => 30);
  const of = pastOf(testFacts(), late, startMs + days(11));
  const never = (hoursBefore: PastHour[]) =>
    replayPast({ ...of, hoursBefore }, defaultLimits).alarms.filter(
      ({ condition }) => condition === 'too-cold-never-heated',
    ).length;
  expect(never([])).toBe(1);
  const hotHour = { startMs: startMs + days(2), minimum: 55, maximum: 58 };
  const means = [{ placementId: 'a', mean: 56 }];
  expect(never([{ startMs: hotHour.startMs, core: hotHour, means }])).toBe(0);
});
