import { describe, expect, test } from 'vitest';
import type { QualityReason } from '../readings/reading.ts';
import { createPileSubject, type PileSample, refill } from './pileSubject.ts';
import { atInstant } from './pileWindow.ts';
import { course, defaultLimits, merged, minuteMs, placed, startMs, testFacts } from './testing/testPile.ts';
import { eventsOf, stepsOf } from './testing/testStory.ts';

/** The same samples, all doubtful for one reason. */
const doubtful = (reason: QualityReason, samples: readonly PileSample[]): PileSample[] =>
  samples.map((sample) => ({ ...sample, quality: 'suspect', reason }));

const two = testFacts({ channels: [placed('a'), placed('b')] });
const viewAfter = (samples: readonly PileSample[], minutes: number, facts = two) => {
  const pile = createPileSubject(facts, defaultLimits);
  refill(pile, samples);
  return atInstant(pile.window, startMs + minutes * minuteMs);
};

describe('a reading whose calibration is overdue', () => {
  const stale = (celsius: number, hours: number, from = 0) =>
    doubtful(
      'calibration-stale',
      course('a', from, hours, () => celsius),
    );

  test.each(['too-hot-ceiling', 'too-hot-fire-danger'] as const)('raises %s', (condition) => {
    expect(eventsOf(condition, stale(83, 3), { hours: 3 })).toContain('became-active');
  });

  test('never clears what it raised', () => {
    const samples = [...stale(73, 3), ...stale(50, 30, 3)];
    expect(eventsOf('too-hot-ceiling', samples, { hours: 30 })).toEqual(['became-active']);
  });

  test('never clears what a good reading raised, while a good one does', () => {
    const hot = course('a', 0, 3, () => 73);
    expect(eventsOf('too-hot-ceiling', [...hot, ...stale(50, 30, 3)], { hours: 30 })).toEqual([
      'became-active',
    ]);
    const good = course('a', 3, 30, () => 50);
    expect(eventsOf('too-hot-ceiling', [...hot, ...good], { hours: 30 })).toEqual([
      'became-active',
      'returned-to-normal',
    ]);
  });

  test('counts for nothing else: the core, its stage and its record stay unknown', () => {
    const view = viewAfter(stale(60, 90), 90 * 60 - 5, testFacts());
    expect(view).toMatchObject({ coreCelsius: null, hotCelsius: 60, hotCertainty: 'bound', stage: null });
    expect(view.sanitisation?.progress).toBe(0);
  });

  test('and falling silent while hottest clears nothing for three days', () => {
    const samples = merged(
      stale(73, 3),
      course('b', 0, 100, () => 60),
    );
    const steps = stepsOf('too-hot-ceiling', samples, { hours: 100, facts: two });
    expect(steps.map(([event]) => event)).toEqual(['became-active', 'returned-to-normal']);
    expect(steps[1]![1]).toBeGreaterThan(74);
  });
});

describe('readings that move faster than a pile can', () => {
  const calm = (id: string) => course(id, 0, 10, () => 60);
  const jump = (id: string, to: number, hours = 12) =>
    doubtful(
      'impossible-rate',
      course(id, 10, hours, (at) => Math.min(to, 60 + (at - 10) * 90)),
    );

  test('of one channel alone are not believed: it may be the probe', () => {
    const samples = merged(
      calm('a'),
      jump('a', 95),
      course('b', 0, 12, () => 60),
    );
    expect(eventsOf('too-hot-fire-danger', samples, { hours: 12, facts: two })).toEqual([]);
  });

  test('of two channels together are a fire: neither is hidden by the quality filter', () => {
    const samples = merged(calm('a'), jump('a', 95), calm('b'), jump('b', 90));
    const steps = stepsOf('too-hot-fire-danger', samples, { hours: 12, facts: two });
    expect(steps[0]![0]).toBe('became-active');
    expect(steps[0]![1]).toBeLessThan(10.6);
    expect(viewAfter(samples, 11 * 60).hotCelsius).toBe(95);
  });

  test('beside a channel elsewhere in the pile that rises more slowly are a fire too', () => {
    const facts = testFacts({ channels: [placed('a'), placed('s', 'shoulder')] });
    const shoulder = course('s', 0, 12, (at) => (at < 9.5 ? 50 : 50 + (at - 9.5) * 10));
    const samples = merged(calm('a'), jump('a', 95), shoulder);
    expect(eventsOf('too-hot-fire-danger', samples, { hours: 12, facts })).toContain('became-active');
  });

  test('to the very same number are one failing supply, not two sensors', () => {
    const same = (id: string) =>
      doubtful(
        'impossible-rate',
        course(id, 10, 12, () => 85),
      );
    const samples = merged(calm('a'), same('a'), calm('b'), same('b'));
    expect(eventsOf('too-hot-fire-danger', samples, { hours: 12, facts: two })).toEqual([]);
  });

  test('that fall together raise nothing and clear nothing', () => {
    const fall = (id: string, to: number) =>
      doubtful(
        'impossible-rate',
        course(id, 10, 14, () => to),
      );
    const hot = (id: string) => course(id, 0, 10, () => 73);
    const samples = merged(hot('a'), fall('a', 20), hot('b'), fall('b', 22));
    expect(eventsOf('too-hot-ceiling', samples, { hours: 14, facts: two })).toEqual(['became-active']);
  });
});

test('a shoulder hotter than the core is hot: fire has no favourite place', () => {
  const facts = testFacts({ channels: [placed('a'), placed('s', 'shoulder')] });
  const samples = merged(
    course('a', 0, 3, () => 60),
    course('s', 0, 3, () => 81),
  );
  expect(eventsOf('too-hot-fire-danger', samples, { hours: 3, facts })).toEqual(['became-active']);
});
