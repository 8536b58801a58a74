/**
 * Water per dry matter from moisture on a wet basis (water per everything): w / (1 - w). 0.5 wet is 1 dry. Throws
 * RangeError outside 0 to below 1, where there is no dry matter to divide by.
 */
export function dryBasisFromWetFraction(wetFraction: number): number {
  if (!(wetFraction >= 0 && wetFraction < 1)) {
    throw new RangeError(`wet-basis moisture ${wetFraction}: allowed 0 to below 1`);
  }
  return wetFraction / (1 - wetFraction);
}
