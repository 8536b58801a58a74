import type { Situation } from './advice/safety.ts';

/** A warm hot bin about whose moisture nothing is known; tests change what they are about. */
export function situationOf(change: Partial<Situation> = {}): Situation {
  return {
    method: 'hot-bin',
    stage: 'cooling',
    hottestCelsius: 35,
    isRising: false,
    hasSignsOfFire: false,
    moisture: 'unknown',
    ...change,
  };
}
