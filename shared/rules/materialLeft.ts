import type { Banded } from '../compost/forecast/banded.ts';
import { remainingFraction } from '../compost/kinetics/decay.ts';
import { moistureFactor } from '../compost/kinetics/limitingFactors.ts';
import { warmthFactor } from '../compost/pileModel/warmth.ts';

/**
 * How far the quick food of a pile (sugars, young green tissue) is used up, reckoned from how warm and moist it has been:
 * days that count as days at the best temperature. Rate and band are ours: with them the reckoning follows the pile
 * model's well-run piles; rich mixes burn faster, poor ones slower.
 */
export const quickRatePerDay = 0.07;
/** Stalk, paper and wood: published order 0.002-0.02 /d (reference 4.3). */
export const slowRatePerDay = 0.012;
const rateBand = 1.6;

const kinetics = {
  response: {
    kind: 'ctmi',
    cardinal: { minimumCelsius: 5, optimumCelsius: 59, maximumCelsius: 75 },
  },
  mesophilicShareFraction: 0.4,
} as const;

/** What some hours of a known core count as, in days at the best temperature and moisture. */
export function workDays(coreCelsius: number, moistureFraction: number, hours: number): number {
  return (warmthFactor(coreCelsius, kinetics) * moistureFactor(moistureFraction) * hours) / 24;
}

/** Share of the quick food left after so many days of work, with its 80 % band. */
export function quickFoodLeft(days: number): Banded {
  return {
    low: remainingFraction(quickRatePerDay * rateBand, days),
    middle: remainingFraction(quickRatePerDay, days),
    high: remainingFraction(quickRatePerDay / rateBand, days),
  };
}
