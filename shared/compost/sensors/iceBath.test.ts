import { describe, expect, it } from 'vitest';
import { iceBathStanding, type RawPoint } from './iceBath.ts';

const nowMs = 10_000_000;
/** Readings up to now, so many seconds apart. */
function readings(values: readonly number[], secondsApart = 10): RawPoint[] {
  return values.map((rawCelsius, index) => ({
    rawCelsius,
    timeMs: nowMs - (values.length - 1 - index) * secondsApart * 1000,
  }));
}
/** A stem going from room temperature into ice water: 63 % of the way every 15 seconds (a usual time constant). */
const plunge = (seconds: number, end: number) =>
  readings(Array.from({ length: seconds / 10 + 1 }, (_, step) => end + 18 * Math.exp((-step * 10) / 15)));

describe('a sensor in ice and water', () => {
  it('is waited for while it says nothing, or too little', () => {
    expect(iceBathStanding([], nowMs)).toEqual({ kind: 'nothing-yet' });
    expect(iceBathStanding(readings([0.4, 0.4]), nowMs)).toMatchObject({ kind: 'wait', readings: 2 });
  });

  it('is said to be moving as long as it falls, and settled when it stands', () => {
    expect(iceBathStanding(plunge(60, 0.4), nowMs).kind).toBe('still-moving');
    const later = iceBathStanding(plunge(180, 0.4), nowMs);
    expect(later).toMatchObject({ kind: 'settled', withinTolerance: true });
    // The ice point is 0.00 C (reference pack 9.2): a sensor that says 0.4 needs -0.4.
    expect(later.kind === 'settled' && later.offsetCelsius).toBeCloseTo(-0.4, 2);
  });

  it('gets a large offset named as one that matters', () => {
    expect(iceBathStanding(plunge(180, -1.8), nowMs)).toMatchObject({
      kind: 'settled',
      withinTolerance: false,
    });
  });

  it.each([17.9, 4, -8])('is not believed to be in ice at a steady %d C', (steady) => {
    const stands = iceBathStanding(readings(Array.from({ length: 12 }, () => steady)), nowMs);
    expect(stands).toEqual({ kind: 'not-ice', rawCelsius: steady });
  });

  it('is judged over as long as three readings take when it seldom sends', () => {
    expect(iceBathStanding(readings([12, 0.5, 0.5], 300), nowMs).kind).toBe('still-moving');
    expect(iceBathStanding(readings([12, 0.5, 0.44, 0.5], 300), nowMs)).toMatchObject({
      kind: 'settled',
      readings: 3,
    });
  });

  it('is not settled by readings of an hour ago', () => {
    const old = readings([0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2]).map((one) => ({
      ...one,
      timeMs: one.timeMs - 3_600_000,
    }));
    expect(iceBathStanding(old, nowMs)).toEqual({ kind: 'nothing-yet' });
  });
});
