import { describe, expect, test } from 'vitest';
import { judgeCuringStart } from './curing.ts';
import { type FinishedFacts, judgeFinished } from './finished.ts';

const good: FinishedFacts = {
  method: 'turned-windrow',
  ageDays: 120,
  coreMeanCelsius: 22,
  airMeanCelsius: 19,
  peakRiseSinceDisturbedCelsius: 5,
  daysSinceDisturbed: 5,
  daysSinceHot: 45,
  moistureFraction: 0.5,
};

describe('finished', () => {
  test('cool, moist, disturbed and long past heating: may be done', () => {
    expect(judgeFinished(good).verdict).toBe('may be done');
  });

  test.each<[string, Partial<FinishedFacts>, string]>([
    ['warmer than the air', { coreMeanCelsius: 24.1 }, 'not done'],
    ['heated after the turn', { peakRiseSinceDisturbedCelsius: 8.1 }, 'not done'],
    ['hot three weeks ago', { daysSinceHot: 20 }, 'not done'],
    ['dry', { moistureFraction: 0.39 }, 'cannot tell'],
    ['too wet', { moistureFraction: 0.65 }, 'cannot tell'],
    ['moisture unknown', { moistureFraction: null }, 'cannot tell'],
    ['not disturbed', { daysSinceDisturbed: 8 }, 'cannot tell'],
    ['disturbance unknown', { daysSinceDisturbed: null }, 'cannot tell'],
    ['response unknown', { peakRiseSinceDisturbedCelsius: null }, 'cannot tell'],
  ])('%s', (_name, change, verdict) => {
    const judged = judgeFinished({ ...good, ...change });
    expect(judged.verdict).toBe(verdict);
    expect(judged.reasons.length).toBeGreaterThan(0);
    expect(judged.nextStep).not.toBe('');
  });

  test('a static cage may be wetter but must stand a year, and is never told to turn', () => {
    const cage: FinishedFacts = { ...good, method: 'static-cage', moistureFraction: 0.7, ageDays: 370 };
    expect(judgeFinished(cage).verdict).toBe('may be done');
    expect(judgeFinished({ ...cage, ageDays: 200 }).verdict).toBe('not done');
    expect(judgeFinished({ ...cage, daysSinceDisturbed: null }).nextStep).toContain('Water it through');
  });

  test('reasons use the reader’s unit, as differences without 32', () => {
    expect(judgeFinished({ ...good, coreMeanCelsius: 29 }, 'F').reasons[0]).toContain('18 F warmer');
  });
});

test('curing is not called in the two days a turned pile needs to reheat', () => {
  const turn = { peakBeforeCelsius: 60, peakSinceCelsius: 40 };
  expect(judgeCuringStart({ ...turn, hoursSinceTurn: 20 })).toBe('too early to tell');
  expect(judgeCuringStart({ ...turn, hoursSinceTurn: 60 })).toBe('curing has started');
  expect(judgeCuringStart({ ...turn, peakBeforeCelsius: 38, hoursSinceTurn: 60 })).toBe('was never hot');
});
