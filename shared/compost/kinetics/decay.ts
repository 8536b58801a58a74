import { freeAirSpaceFactor, moistureFactor, oxygenFactor } from './limitingFactors.ts';
import { haugTemperatureFactor } from './temperatureFactor.ts';

/** Share of a pool left after `days` of first-order decay at `ratePerDay`. */
export function remainingFraction(ratePerDay: number, days: number): number {
  return Math.exp(-ratePerDay * days);
}

/** Degradable material split into a fast pool (sugars, young green tissue) and a slow one (cellulose in stalk, wood). */
export interface TwoPools {
  readonly fastShareFraction: number;
  readonly fastRatePerDay: number;
  readonly slowRatePerDay: number;
}

/** Share of both pools together left after `days`: two first-order decays side by side. */
export function twoPoolRemainingFraction(pools: TwoPools, days: number): number {
  return (
    pools.fastShareFraction * remainingFraction(pools.fastRatePerDay, days) +
    (1 - pools.fastShareFraction) * remainingFraction(pools.slowRatePerDay, days)
  );
}

/** What surrounds the microbes, as Haug's product of factors wants it. */
export interface Surroundings {
  readonly celsius: number;
  readonly moistureFraction: number;
  readonly freeAirSpaceFraction: number;
  readonly oxygenPercent: number;
}

/**
 * Haug's corrected rate constant: k20 times the temperature, moisture, free-air-space and oxygen factors (Haug 1993).
 * @returns rate per day, same unit as `ratePerDayAt20Celsius`.
 */
export function haugRatePerDay(ratePerDayAt20Celsius: number, around: Surroundings): number {
  return (
    ratePerDayAt20Celsius *
    haugTemperatureFactor(around.celsius) *
    moistureFactor(around.moistureFraction) *
    freeAirSpaceFactor(around.freeAirSpaceFraction) *
    oxygenFactor(around.oxygenPercent)
  );
}
