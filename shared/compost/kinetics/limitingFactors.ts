/**
 * Moisture factor 0..1 from wet-basis moisture; half at 0.3994 (Haug 1993; from memory, unconfirmed).
 */
export function moistureFactor(moistureFraction: number): number {
  return 1 / (Math.exp(-17.684 * moistureFraction + 7.0622) + 1);
}

/**
 * Free air space factor 0..1; half at 0.1476 (Haug 1993; from memory, unconfirmed).
 */
export function freeAirSpaceFactor(freeAirSpaceFraction: number): number {
  return 1 / (Math.exp(-23.675 * freeAirSpaceFraction + 3.4945) + 1);
}

/**
 * Oxygen factor from oxygen in per cent by volume, half at 2 % (Haug 1993; from memory, unconfirmed). It is 0.913, not
 * 1, in fresh air: use {@link oxygenFactorOfAir} where the rate constant was measured in air.
 */
export function oxygenFactor(oxygenPercent: number): number {
  return oxygenPercent / (oxygenPercent + 2);
}

/** Mole fraction of oxygen in fresh air, as the normalised factor rounds it. */
export const freshAirOxygenFraction = 0.21;

/**
 * Oxygen factor normalised to 1 in fresh air, from mole fractions (manure-composting module of an open dairy-farm
 * research model; form confirmed by lookup). `halfSaturationFraction` defaults to Haug's 2 %.
 */
export function oxygenFactorOfAir(oxygenFraction: number, halfSaturationFraction = 0.02): number {
  const atAir = (halfSaturationFraction + freshAirOxygenFraction) / freshAirOxygenFraction;
  return (oxygenFraction / (halfSaturationFraction + oxygenFraction)) * atAir;
}
