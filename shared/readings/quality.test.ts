import { describe, expect, test } from 'vitest';
import { judgeReading } from './quality.ts';
import type { CandidateReading, NeighbourChannel, QualityInput } from './qualityInput.ts';
import { qualityReasonTexts } from './qualityReasonTexts.ts';
import { type QualityReason, qualityReasons, type Reading } from './reading.ts';
import { defaultSensors, digitalThermometer } from './sensorDescription.ts';

const minuteMs = 60_000;
const nowMs = 1_700_000_000_000;

const reading = (timeMs: number, value: number, reason: QualityReason | null = null): Reading => ({
  channel: 'urn:dev:os:32473-1_core',
  timeMs,
  rawValue: value,
  value,
  quality: reason === null ? 'good' : 'suspect',
  reason,
});

/** Readings every `stepMinutes`, the last one step before now. */
const upToNow = (values: readonly number[], stepMinutes = 5): Reading[] =>
  values.map((value, index) => reading(nowMs - (values.length - index) * stepMinutes * minuteMs, value));
const steady = (value: number, count = 8): number[] =>
  Array.from({ length: count }, (_, index) => value + (index % 2) * 0.0625);
const beside = (...values: number[]): NeighbourChannel[] => [{ channel: 'beside', history: upToNow(values) }];

function judge(
  value: number,
  input: Partial<QualityInput> & { at?: Partial<CandidateReading> } = {},
): string {
  const { at, ...rest } = input;
  const { quality, reason } = judgeReading({
    candidate: { timeMs: nowMs, value, rawValue: value, ...at },
    quantity: 'temperature',
    history: upToNow(steady(60)),
    neighbours: [],
    nowMs,
    sensor: digitalThermometer,
    handledSinceMs: null,
    ...rest,
  });
  return reason === null ? quality : `${quality}: ${reason}`;
}

test('a reading like those before it is good', () => expect(judge(60.1)).toBe('good'));
test('the very first reading of a channel is good', () => expect(judge(60, { history: [] })).toBe('good'));

describe('bad whatever surrounds it', () => {
  test.each([
    [-127, 'bad: did-not-answer'],
    [127.94, 'bad: conversion-failed'],
    [127.9375, 'bad: conversion-failed'],
    [126, 'bad: out-of-range'],
    [-55.5, 'bad: out-of-range'],
    [Number.NaN, 'bad: out-of-range'],
  ])('%d', (value, verdict) => {
    expect(judge(value)).toBe(verdict);
    expect(judge(value, { history: [], neighbours: beside(value, value) })).toBe(verdict);
  });

  test('a failed check sum, even for a likely value', () => {
    expect(judge(60, { at: { flags: { crcFailed: true } } })).toBe('bad: crc-failed');
  });

  test('a time beyond the tolerance, but not within it', () => {
    expect(judge(60, { at: { timeMs: nowMs + 9 * minuteMs } })).toBe('good');
    expect(judge(60, { at: { timeMs: nowMs + 11 * minuteMs } })).toBe('bad: future-time');
    expect(judge(60, { at: { timeMs: Date.UTC(9999, 0) } })).toBe('bad: future-time');
  });

  test('a moisture above one, by the raw value and not the calibrated one', () => {
    const moisture = { quantity: 'moisture', sensor: defaultSensors.moisture, history: [] } as const;
    expect(judge(55, moisture)).toBe('bad: out-of-range');
    expect(judge(1.02, { ...moisture, at: { rawValue: 0.99 } })).toBe('good');
  });
});

describe('85.000', () => {
  test('is the power-on value after a gap, at a restart, or as a jump from far', () => {
    expect(judge(85, { history: [] })).toBe('bad: power-on-value');
    expect(judge(85)).toBe('bad: power-on-value');
    expect(judge(85, { history: [reading(nowMs - 24 * 60 * minuteMs, 84)] })).toBe('bad: power-on-value');
    expect(judge(85, { history: upToNow([84, 84.5]), at: { flags: { restarted: true } } })).toBe(
      'bad: power-on-value',
    );
  });

  test('is believed when the channel was near it just before', () => {
    expect(judge(85, { history: upToNow([84.25, 84.5, 84.75]) })).toBe('good');
  });

  test('repeated does not vouch for itself, neither here nor beside', () => {
    const history = [...upToNow([60], 20), reading(nowMs - 5 * minuteMs, 85, 'outlier')];
    expect(judge(85, { history, neighbours: beside(85, 85) })).toBe('bad: power-on-value');
    expect(judge(85, { history: [], neighbours: beside(85, 85) })).toBe('bad: power-on-value');
  });

  test('of a new probe is believed when a neighbour is near it', () => {
    expect(judge(85, { history: [], neighbours: beside(83, 83.5) })).toBe('good');
  });

  test('late data is judged by what came after it too', () => {
    const at = { timeMs: nowMs - 10 * minuteMs };
    expect(judge(85, { history: [reading(nowMs, 84.9)], at })).toBe('good');
    expect(judge(85, { history: [reading(nowMs, 60)], at })).toBe('bad: power-on-value');
  });

  test('85.0625 is a temperature like any other', () => {
    expect(judge(85.0625, { history: [] })).toBe('good');
  });

  test('only counts for sensors that have it', () => {
    expect(judge(85, { history: [], sensor: { ...digitalThermometer, powerOnValue: null } })).toBe('good');
  });
});

describe('exactly 0', () => {
  test('is a stuck bus when the channel, or failing that the neighbours, are elsewhere', () => {
    expect(judge(0)).toBe('bad: bus-stuck-low');
    expect(judge(0, { history: [], neighbours: beside(30, 31) })).toBe('bad: bus-stuck-low');
  });

  test('is frost when the channel was near 0, whatever the core says', () => {
    expect(judge(0, { history: upToNow([0.25, 0.125]), neighbours: beside(60, 60) })).toBe('good');
  });

  test('is believed when there is nothing to say otherwise', () =>
    expect(judge(0, { history: [] })).toBe('good'));

  test('of a battery is no matter of a bus', () => {
    const battery = {
      quantity: 'battery',
      sensor: defaultSensors.battery,
      history: upToNow([1, 1]),
    } as const;
    expect(judge(0, battery)).toBe('good');
  });
});

describe('jumps', () => {
  test('more than 5 C in 5 minutes is impossible, and slower is not', () => {
    expect(judge(65.5)).toBe('suspect: impossible-rate');
    expect(judge(52)).toBe('suspect: impossible-rate');
    expect(judge(64, { history: [reading(nowMs - 60 * minuteMs, 60)] })).toBe('good');
  });

  test('is excused once the journal says the pile was handled, not before', () => {
    expect(judge(30, { handledSinceMs: nowMs - minuteMs })).toBe('good');
    expect(judge(30, { handledSinceMs: nowMs + minuteMs })).toBe('suspect: impossible-rate');
  });

  test('the honest reading after a wild one is not taken for another jump', () => {
    const history = [...upToNow(steady(60)), reading(nowMs - minuteMs, 95, 'impossible-rate')];
    expect(judge(60, { history })).toBe('good');
  });

  test('a real new level is believed when enough time has passed for it', () => {
    const later = nowMs + 60 * minuteMs;
    const suspects = [1, 2, 3, 4, 5].map((index) =>
      reading(nowMs + index * 10 * minuteMs, 40, 'impossible-rate'),
    );
    const history = [...upToNow(steady(60)), ...suspects];
    expect(judge(40, { history, at: { timeMs: later }, nowMs: later })).toBe('good');
  });

  test('a step beyond three times the accuracy is an outlier, a smaller one is not', () => {
    expect(judge(61.8)).toBe('suspect: outlier');
    expect(judge(61.2)).toBe('good');
  });

  test('a pile that heats as fast as piles do has no outliers', () => {
    const heating = Array.from({ length: 12 }, (_, index) => 40 + index * 0.5);
    heating.slice(5).forEach((value, index) => {
      expect(judge(value, { history: upToNow(heating.slice(0, 5 + index)) })).toBe('good');
    });
  });

  test('late data is compared with both sides', () => {
    const history = upToNow(steady(60, 9)).filter((_, index) => index !== 4);
    expect(judge(62.5, { history, at: { timeMs: nowMs - 5 * 5 * minuteMs } })).toBe('suspect: outlier');
  });
});

describe('stuck', () => {
  const flat = upToNow(Array(80).fill(60), 5);
  const moving = [
    { channel: 'beside', history: upToNow(Array.from({ length: 80 }, (_, index) => 50 + index / 20)) },
  ];

  test('flat for hours while a neighbour moved', () => {
    expect(judge(60, { history: flat, neighbours: moving })).toBe('suspect: stuck');
  });

  test('not when the neighbours are as steady, or when there are none', () => {
    const calm = [{ channel: 'beside', history: upToNow(Array(80).fill(50)) }];
    expect(judge(60, { history: flat, neighbours: calm })).toBe('good');
    expect(judge(60, { history: flat })).toBe('good');
  });

  test('not when the neighbour moved only long before', () => {
    const calmed = Array.from({ length: 90 }, (_, index) => (index < 10 ? 40 : 50));
    const neighbours = [{ channel: 'beside', history: upToNow(calmed) }];
    expect(judge(60, { history: flat, neighbours })).toBe('good');
  });

  test('not when a handful of readings is all there is to judge by', () => {
    expect(judge(60, { history: upToNow([60, 60, 60], 180), neighbours: moving })).toBe('good');
  });

  test('not when it moved beyond its resolution, or the history is too short to say', () => {
    expect(judge(60.125, { history: flat, neighbours: moving })).toBe('good');
    expect(judge(60.0625, { history: flat, neighbours: moving })).toBe('suspect: stuck');
    expect(judge(60, { history: flat.slice(-60), neighbours: moving })).toBe('good');
  });
});

describe('pairs and calibration', () => {
  const pairs = beside(...steady(55));

  test('three differences in a row beyond the tolerance are a disagreement, one is not', () => {
    expect(judge(60, { pairs })).toBe('suspect: disagrees-with-pair');
    expect(judge(58.6, { pairs, history: upToNow(steady(57.5)) })).toBe('good');
    expect(judge(57.5, { pairs, history: upToNow(steady(57)) })).toBe('good');
  });

  test('a pair that has been silent for long has no say', () => {
    const silent = [{ channel: 'beside', history: [reading(nowMs - 120 * minuteMs, 20)] }];
    expect(judge(60, { pairs: silent })).toBe('good');
  });

  test('an overdue calibration makes readings suspect from the day it is due', () => {
    const due = (calibrationDueMs: number) => ({ sensor: { ...digitalThermometer, calibrationDueMs } });
    expect(judge(60, due(nowMs - 1))).toBe('suspect: calibration-stale');
    expect(judge(60, due(nowMs))).toBe('good');
  });
});

test('every reason has words and an action for people', () => {
  for (const reason of qualityReasons) {
    expect(qualityReasonTexts[reason].what).toMatch(/\w+ \w+/);
    expect(qualityReasonTexts[reason].action).toMatch(/\.$/);
  }
});
