/**
 * Volume left as a share of the start: f + (1-f) exp(-s t). Modelling form, ours; the usual end is 25-50 % (from memory).
 * @param finalFraction share of the volume left at the end. @param ratePerDay settling rate.
 */
export function settledVolumeFraction(finalFraction: number, ratePerDay: number, days: number): number {
  return finalFraction + (1 - finalFraction) * Math.exp(-ratePerDay * days);
}

/**
 * Settling rate per day that brings the pile to half its volume on a given day.
 * @throws RangeError when the end volume is half or more: it would never get there.
 */
export function settlingRateForHalf(finalFraction: number, halfAtDays: number): number {
  if (finalFraction >= 0.5)
    throw new RangeError(`finalFraction ${finalFraction} must be below 0.5 to pass half volume`);
  return -Math.log((0.5 - finalFraction) / (1 - finalFraction)) / halfAtDays;
}
