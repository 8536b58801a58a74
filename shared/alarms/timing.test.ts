import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isTimerRunning, restingTimer, stepTiming, type TimerState, type Truth } from './timing.ts';

const minute = 60_000;
const delays = { onDelayMinutes: 10, offDelayMinutes: 20 };

function run(truths: readonly (readonly [number, Truth])[], start: TimerState = restingTimer) {
  let timing = start;
  const changes: [number, string][] = [];
  for (const [atMinute, truth] of truths) {
    const step = stepTiming(timing, { atMs: atMinute * minute, truth }, delays);
    timing = step.timing;
    if (step.change) changes.push([atMinute, step.change]);
  }
  return { timing, changes };
}

test('becomes active when the condition has held for exactly the on-delay', () => {
  expect(
    run([
      [0, 'true'],
      [9, 'true'],
    ]).changes,
  ).toEqual([]);
  expect(
    run([
      [0, 'true'],
      [9, 'true'],
      [10, 'true'],
    ]).changes,
  ).toEqual([[10, 'became-active']]);
});

test('one contrary instant restarts the on-delay', () => {
  expect(
    run([
      [0, 'true'],
      [5, 'false'],
      [6, 'true'],
      [15, 'true'],
    ]).changes,
  ).toEqual([]);
});

test('returns only after the off-delay without a break', () => {
  const active = run([
    [0, 'true'],
    [10, 'true'],
  ]).timing;
  expect(
    run(
      [
        [11, 'false'],
        [20, 'true'],
        [21, 'false'],
        [40, 'false'],
      ],
      active,
    ).changes,
  ).toEqual([]);
  expect(
    run(
      [
        [11, 'false'],
        [31, 'false'],
      ],
      active,
    ).changes,
  ).toEqual([[31, 'returned']]);
});

test('an unknown stretch stops the timer where it stood', () => {
  const truths: [number, Truth][] = [
    [0, 'true'],
    [4, 'unknown'],
    [100, 'unknown'],
    [120, 'true'],
    [125, 'true'],
  ];
  expect(run(truths).changes).toEqual([]);
  expect(run([...truths, [126, 'true']]).changes).toEqual([[126, 'became-active']]);
});

test('unknown never raises and never clears', () => {
  expect(
    run([
      [0, 'unknown'],
      [500, 'unknown'],
    ]).timing,
  ).toBe(restingTimer);
  const active = run([
    [0, 'true'],
    [10, 'true'],
  ]).timing;
  expect(
    run(
      [
        [11, 'unknown'],
        [5000, 'unknown'],
      ],
      active,
    ).timing.active,
  ).toBe(true);
});

test('says whether the passing of time alone can change anything', () => {
  expect(isTimerRunning(restingTimer)).toBe(false);
  expect(isTimerRunning(run([[0, 'true']]).timing)).toBe(true);
  expect(
    isTimerRunning(
      run([
        [0, 'true'],
        [1, 'unknown'],
      ]).timing,
    ),
  ).toBe(false);
  expect(
    isTimerRunning(
      run([
        [0, 'true'],
        [10, 'true'],
      ]).timing,
    ),
  ).toBe(false);
});

test('changes always alternate, whatever comes', () => {
  const truth = fc.constantFrom<Truth>('true', 'false', 'unknown');
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 30 }), truth), { maxLength: 60 }), (gaps) => {
      let at = 0;
      const { changes } = run(
        gaps.map(([gap, value]) => {
          at += gap;
          return [at, value] as const;
        }),
      );
      for (const [index, [, kind]] of changes.entries())
        expect(kind).toBe(index % 2 === 0 ? 'became-active' : 'returned');
    }),
  );
});
