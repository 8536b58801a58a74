import { describe, expect, it } from 'vitest';
import { fetchedAround, isCovered, moved, stepFor, windowEndingAt } from './chartWindow.ts';

const dayMs = 86_400_000;
const nowMs = 100 * dayMs;
const startedMs = 60 * dayMs;
const week = windowEndingAt(nowMs, 7, startedMs);
const inDays = ({ fromMs, toMs }: { fromMs: number; toMs: number }) => [fromMs / dayMs, toMs / dayMs];

describe('the stretch of time a chart shows', () => {
  it('ends now, and goes back some days or to the pile’s start', () => {
    expect(inDays(week)).toEqual([93, 100]);
    expect(inDays(windowEndingAt(nowMs, 0, startedMs))).toEqual([60, 100]);
    expect(inDays(windowEndingAt(nowMs, 0, nowMs - 1))).toEqual([99, 100]);
  });

  it('moves by its width, never past now and not far before the pile began', () => {
    expect(inDays(moved(week, -1, startedMs, nowMs))).toEqual([86, 93]);
    expect(inDays(moved(week, 3, startedMs, nowMs))).toEqual([93, 100]);
    expect(inDays(moved(week, -50, startedMs, nowMs))).toEqual([56.5, 63.5]);
    expect(inDays(moved(windowEndingAt(nowMs, 0, startedMs), -9, startedMs, nowMs))).toEqual([40, 80]);
  });
});

describe('what is to come', () => {
  it('is shown as far as it is known, and for less than a third of the past', () => {
    expect(inDays(windowEndingAt(nowMs, 10, startedMs, 14 * dayMs))).toEqual([90, 103]);
    expect(inDays(windowEndingAt(nowMs, 10, startedMs, 2 * dayMs))).toEqual([90, 102]);
    expect(inDays(windowEndingAt(nowMs, 10, startedMs))).toEqual([90, 100]);
  });
});

describe('what is fetched for it', () => {
  it('reaches a width to both sides, but not into the future', () => {
    expect(inDays(fetchedAround(week, nowMs))).toEqual([86, 100]);
    expect(inDays(fetchedAround(moved(week, -2, startedMs, nowMs), nowMs))).toEqual([72, 93]);
  });

  it('is fetched anew only when a drag comes near its edge', () => {
    const fetched = fetchedAround(week, nowMs);
    expect(isCovered(week, fetched, nowMs)).toBe(true);
    expect(isCovered(moved(week, -0.5, startedMs, nowMs), fetched, nowMs)).toBe(true);
    expect(isCovered(moved(week, -0.8, startedMs, nowMs), fetched, nowMs)).toBe(false);
    expect(isCovered(week, fetchedAround(moved(week, -2, startedMs, nowMs), nowMs), nowMs)).toBe(false);
  });

  it('is as coarse as the stretch is long', () => {
    const steps = [1, 7, 8, 30, 46, 400].map((days) => stepFor(windowEndingAt(nowMs * 9, days, 0)));
    expect(steps).toEqual(['raw', 'raw', 'hour', 'hour', 'day', 'day']);
  });
});
