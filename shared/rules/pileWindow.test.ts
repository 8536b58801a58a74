import { describe, expect, test } from 'vitest';
import { detectStages } from '../compost/stages/detectStages.ts';
import type { JournalEntry } from '../yard/journal.ts';
import type { PileMethod } from '../yard/method.ts';
import { createPileSubject, type PileSample, refill } from './pileSubject.ts';
import { atInstant, type PileFacts, setFacts } from './pileWindow.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  minuteMs,
  placed,
  samplesOf,
  startMs,
  testFacts,
  wrote,
} from './testing/testPile.ts';

function viewAfter(samples: readonly PileSample[], minutes: number, facts: PileFacts = testFacts()) {
  const pile = createPileSubject(facts, defaultLimits);
  refill(pile, samples);
  return atInstant(pile.window, startMs + minutes * minuteMs);
}

const twoCores = testFacts({ channels: [placed('a'), placed('b')] });

describe('the core', () => {
  test('is the highest good channel, not a mean', () => {
    const view = viewAfter(merged(samplesOf('a', [[0, 70]]), samplesOf('b', [[0, 50]])), 1, twoCores);
    expect(view).toMatchObject({ coreCelsius: 70, coreCertainty: 'measured' });
  });

  test('is unknown, not zero and not old, when its readings are too old', () => {
    expect(viewAfter(samplesOf('a', [[0, 70]]), 60).coreCelsius).toBe(70);
    expect(viewAfter(samplesOf('a', [[0, 70]]), 61)).toMatchObject({
      coreCelsius: null,
      coreCertainty: 'unknown',
    });
  });

  test('does not step down when the hottest channel dies: what is left is a lower bound', () => {
    const samples = merged(
      course('a', 0, 10, () => 70),
      course('b', 0, 20, () => 62),
    );
    expect(viewAfter(samples, 20 * 60 - 5, twoCores)).toMatchObject({
      coreCelsius: 62,
      coreCertainty: 'bound',
    });
    const trend = viewAfter(samples, 20 * 60 - 5, twoCores).trendCelsiusPerHour(12);
    expect(trend === null || Math.abs(trend) < 0.05).toBe(true);
  });

  test('a bad value of the hottest channel is not taken, and its good one ages', () => {
    const bad = samplesOf('a', [[10, 12]]).map((sample) => ({ ...sample, quality: 'bad' as const }));
    expect(viewAfter(merged(samplesOf('a', [[0, 70]]), bad), 11).coreCelsius).toBe(70);
  });

  test('stands on the other channels when the lost one did not lead, was moved away, or was lost long ago', () => {
    const cooler = merged(
      course('a', 0, 10, () => 55),
      course('b', 0, 20, () => 62),
    );
    expect(viewAfter(cooler, 20 * 60 - 5, twoCores).coreCertainty).toBe('measured');
    const hotter = merged(
      course('a', 0, 10, () => 70),
      course('b', 0, 90, () => 62),
    );
    const moved = { toMs: startMs + 10 * hourMs };
    const movedFacts = testFacts({ channels: [placed('a', 'core', 'temperature', moved), placed('b')] });
    expect(viewAfter(hotter, 20 * 60, movedFacts).coreCertainty).toBe('measured');
    expect(viewAfter(hotter, 83 * 60, twoCores).coreCertainty).toBe('measured');
  });
});

test('moisture is the driest good channel', () => {
  const facts = testFacts({ channels: [placed('m', 'core', 'moisture'), placed('n', 'edge', 'moisture')] });
  const samples = merged(samplesOf('m', [[0, 0.7]]), samplesOf('n', [[0, 0.55]]));
  expect(viewAfter(samples, 5, facts).moistureFraction).toBe(0.55);
});

test('sums credit heat conservatively and never across a gap', () => {
  const steady = viewAfter(
    course('a', 0, 10.01, () => 60),
    601,
  );
  expect(steady.hoursAbove55).toBeCloseTo(10, 6);
  expect(steady.degreeHoursAbove40).toBeCloseTo(200, 6);
  const gap = viewAfter(
    samplesOf('a', [
      [0, 60],
      [200, 60],
    ]),
    201,
  );
  expect(gap.hoursAbove55).toBe(0);
  expect(
    viewAfter(
      samplesOf('a', [
        [0, 54],
        [30, 60],
      ]),
      31,
    ).hoursAbove55,
  ).toBe(0);
});

test('the trend is robust against a wild value and null without enough points', () => {
  const rising = course('a', 0, 8, (hours) => (hours > 5 && hours < 5.05 ? 90 : 30 + 2 * hours));
  expect(viewAfter(rising, 8 * 60).trendCelsiusPerHour(6)).toBeCloseTo(2, 1);
  expect(
    viewAfter(
      course('a', 0, 0.5, () => 30),
      30,
    ).trendCelsiusPerHour(6),
  ).toBeNull();
});

test('advice remembers the hottest of the last day', () => {
  const falling = course('a', 0, 40, (hours) => (hours < 10 ? 82 : 60));
  expect(viewAfter(falling, 30 * 60, testFacts()).hottestOfDayCelsius).toBe(82);
  expect(viewAfter(falling, 36 * 60, testFacts()).hottestOfDayCelsius).toBe(60);
});

describe('the stage', () => {
  const stageOf = (method: PileMethod, celsius: number, hours: number, journal: JournalEntry[] = []) => {
    const samples = course('a', 0, hours, () => celsius);
    return viewAfter(samples, hours * 60 - 5, testFacts({ method, journal })).stage;
  };

  test.each([
    ['static-cage', 20, 'lag'],
    ['static-cage', 35, 'heating'],
    ['static-cage', 60, 'hot'],
    ['worm-bed', 20, 'curing'],
    ['leaf-heap', 20, 'curing'],
    ['curing-heap', 30, 'curing'],
  ] as const)('of a %s at %d C for five hours is %s', (method, celsius, stage) => {
    expect(stageOf(method, celsius, 5)).toBe(stage);
  });

  test('is the same from readings as from the stage library over the whole course', () => {
    const shape = (hours: number) => (hours < 40 ? 20 + hours : hours < 200 ? 60 : 30);
    const samples = course('a', 0, 24 * 20, shape, 20);
    const pile = createPileSubject(testFacts(), defaultLimits);
    const seen: (string | null)[] = [];
    for (let hour = 1; hour <= 24 * 20; hour += 1) {
      refill(pile, samples.slice((hour - 1) * 3, hour * 3));
      seen.push(atInstant(pile.window, startMs + hour * hourMs).stage);
    }
    const core = [{ channel: 'a', samples }];
    const input = { method: 'static-cage', startedMs: startMs, core, journal: [] } as const;
    const spans = detectStages({ ...input, nowMs: startMs + 24 * 20 * hourMs });
    const changes = seen.flatMap((stage, hour) => (stage === seen[hour - 1] ? [] : [[stage, hour]]));
    expect(changes.map(([stage]) => stage)).toEqual(spans.map(({ stage }) => stage));
    // The running hour is not known yet: an hour later than in hindsight.
    for (const [index, { fromMs }] of spans.entries())
      expect(Math.abs(Number(changes[index]![1]) - (fromMs - startMs) / hourMs)).toBeLessThanOrEqual(1);
  });

  test('is finished by a word written three days late, and unknown once the core is silent', () => {
    expect(stageOf('static-cage', 20, 5, [wrote('finished', 1)])).toBe('finished');
    const samples = course('a', 0, 10, () => 60);
    expect(viewAfter(samples, 15 * 60).stage).toBe('hot');
    expect(viewAfter(samples, 17 * 60).stage).toBeNull();
  });

  test('takes a turning into account that is written two days late', () => {
    const facts = testFacts({ method: 'turned-windrow' });
    const samples = course('a', 0, 130, (hours) => (hours < 100 ? 60 : 36), 20);
    const pile = createPileSubject(facts, defaultLimits);
    refill(pile, samples);
    const now = () => atInstant(pile.window, startMs + 130 * hourMs).stage;
    expect(now()).toBe('cooling');
    setFacts(pile.window, { ...facts, journal: [wrote('turned', 99)] });
    expect(now()).toBe('hot');
  });
});
