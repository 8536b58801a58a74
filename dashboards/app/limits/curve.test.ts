import { describe, expect, test } from 'vitest';
import { pastOf } from '../../../shared/rules/testing/testPast.ts';
import {
  course,
  hourMs,
  placed,
  samplesOf,
  startMs,
  testFacts,
} from '../../../shared/rules/testing/testPile.ts';
import { showAs } from '../../common/format.ts';
import { dayTicks, type Scale, valueAt, valueTicks, verticalEnds, xAt, yAt } from './chartScale.ts';
import { curvesOf, endsOf } from './curve.ts';

const facts = testFacts({ channels: [placed('a'), placed('b'), placed('edge', 'edge')] });
const samples = [
  ...course('a', 0, 100, (hours) => 50 + (hours === 50 ? 21.3 : 0), 10),
  ...course('b', 0, 100, () => 44, 10),
  ...course('edge', 0, 100, () => 90, 10),
];
const past = pastOf(facts, samples, startMs + 100 * hourMs);

describe('the curve of a pile’s past', () => {
  test('keeps the highest of all core channels, however few points are drawn', () => {
    const { heat } = curvesOf(past, startMs, 20);
    expect(heat.length).toBe(1);
    expect(heat[0]!.length).toBeLessThanOrEqual(21);
    expect(endsOf(heat)).toEqual([44, 71.3]);
  });

  test('breaks where nobody was heard for hours, and has no point that was not measured', () => {
    const gappy = pastOf(
      testFacts(),
      samplesOf('a', [
        [0, 50],
        [30, 51],
        [1000, 52],
      ]),
      startMs + 20 * hourMs,
    );
    const { heat, moisture } = curvesOf(gappy, startMs, 100);
    expect(heat.map((run) => run.length)).toEqual([2, 1]);
    expect([moisture, endsOf(moisture)]).toEqual([[], null]);
  });
});

describe('the scale of the chart', () => {
  const scale: Scale = {
    ...{ fromMs: startMs, toMs: startMs + 30 * 24 * hourMs, bottom: 10, top: 80, width: 600, height: 280 },
  };
  test('goes there and back', () => {
    expect(valueAt(scale, yAt(scale, 71))).toBeCloseTo(71, 9);
    expect([xAt(scale, scale.fromMs), xAt(scale, scale.toMs)]).toEqual([0, 600]);
    expect(yAt(scale, 80)).toBe(0);
  });

  test('has room over the hottest reading and every line, in whole tens', () => {
    expect(verticalEnds(curvesOf(past, startMs).heat, [71, 65], false)).toEqual([30, 80]);
    expect(verticalEnds([], [0.6], true)[1]).toBeCloseTo(0.7, 9);
  });

  test('marks midnights of the yard’s zone, also over the change of the clocks', () => {
    showAs({ temperatureUnit: 'C', timeZone: 'Europe/London' });
    const october = Date.UTC(2026, 9, 20);
    const ticks = dayTicks({ ...scale, fromMs: october, toMs: october + 10 * 24 * hourMs });
    const hours = ticks.map((atMs) => new Date(atMs).toLocaleString('en-GB', { timeZone: 'Europe/London' }));
    expect(hours.every((text) => text.endsWith('00:00:00'))).toBe(true);
    expect(ticks.length).toBeGreaterThanOrEqual(5);
    showAs({ temperatureUnit: 'C', timeZone: 'UTC' });
  });

  test('has round values, as many as there is room for', () => {
    expect(valueTicks(10, 80, 280)).toEqual([10, 20, 30, 40, 50, 60, 70, 80]);
    expect(valueTicks(50, 176, 120)).toEqual([50, 100, 150]);
  });
});
