import { describe, expect, it } from 'vitest';
import type { PileChannel, SeriesChannel, SeriesView } from '../../../../shared/api/types.ts';
import { pointsAt, pointsNow } from './pointsAt.ts';

const hourMs = 3_600_000;
const nowMs = 1000 * hourMs;

function raw(...readings: readonly (readonly [hour: number, value: number, quality?: 0 | 1 | 2])[]) {
  return {
    ...{ placementId: 'p1', channel: 'c', quantity: 'temperature', position: 'core', depthMetres: 0.6 },
    raw: {
      timesMs: readings.map(([hour]) => hour * hourMs),
      values: readings.map(([, value]) => value),
      quality: readings.map(([, , quality = 0]) => quality),
    },
    rollups: null,
  } as SeriesChannel;
}
const series = (step: SeriesView['step'], ...channels: SeriesChannel[]): SeriesView => {
  return { fromMs: 0, toMs: nowMs, step, channels };
};
const core = raw([1, 50], [2, 60], [2.5, -127, 2]);
const at = (hour: number) => pointsAt(series('raw', core), hour * hourMs)[0];

describe('a point at a moment of the past', () => {
  it('says its last good reading, before it has any nothing', () => {
    expect(at(1.5)).toMatchObject({ standing: 'good', celsius: 50, timeMs: hourMs });
    expect(at(2)).toMatchObject({ standing: 'good', celsius: 60 });
    expect(at(0.5)).toMatchObject({ standing: 'silent', celsius: null });
  });

  it('is not believed while it sends nonsense, then old, and a day later silent', () => {
    expect(at(2.6)).toMatchObject({ standing: 'not-believed', celsius: 60, timeMs: 2 * hourMs });
    expect(at(4)).toMatchObject({ standing: 'old', celsius: 60 });
    expect(at(27)).toMatchObject({ standing: 'silent', celsius: null });
  });

  it('tells the same from hours', () => {
    const rollups = {
      startsMs: [1, 2, 3].map((hour) => hour * hourMs),
      means: [50, 60, 61],
      doubtfulStartsMs: [4, 5, 6].map((hour) => hour * hourMs),
      ...{ minimums: [], maximums: [], counts: [] },
    };
    const hours = { ...core, raw: null, rollups } as SeriesChannel;
    const said = (hour: number) => pointsAt(series('hour', hours), hour * hourMs)[0]!.standing;
    expect([said(3.5), said(4.2), said(7), said(12), said(40)]).toEqual([
      'good',
      'not-believed',
      'not-believed',
      'old',
      'silent',
    ]);
  });

  it('leaves out air and moisture', () => {
    const air = { ...core, position: 'air' } as SeriesChannel;
    const moisture = { ...core, quantity: 'moisture' } as SeriesChannel;
    expect(pointsAt(series('raw', air, moisture), hourMs)).toEqual([]);
  });
});

describe('a point now', () => {
  const channel = (last: object | null, lastGood: object | null) =>
    ({
      id: 'p1',
      pileId: 'x',
      quantity: 'temperature',
      position: 'core',
      depthMetres: 0.6,
      last,
      lastGood,
    }) as unknown as PileChannel;
  const reading = (agoHours: number, value: number, quality = 'good', reason: string | null = null) => {
    return { timeMs: nowMs - agoHours * hourMs, value, quality, reason };
  };
  const now = (last: object | null, lastGood: object | null) =>
    pointsNow([channel(last, lastGood)], nowMs)[0];

  it('is good, old, silent or not believed with the reason', () => {
    expect(now(reading(0.1, 64), reading(0.1, 64))).toMatchObject({ standing: 'good', celsius: 64 });
    expect(now(reading(5, 64), reading(5, 64))).toMatchObject({ standing: 'old', celsius: 64 });
    expect(now(null, null)).toMatchObject({ standing: 'silent', celsius: null });
    expect(now(reading(0.1, 85, 'bad', 'power-on-value'), reading(0.4, 64))).toMatchObject({
      standing: 'not-believed',
      celsius: 64,
      reason: 'power-on-value',
    });
  });
});
