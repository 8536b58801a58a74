/** Volume shares of water, solids and air; they sum to 1. */
export interface PhaseFractions {
  readonly water: number;
  readonly solids: number;
  readonly air: number;
}

/** Densities of the phases, kg/m3 (Richard et al. 2004; constants from memory, unconfirmed). */
export const phaseDensity = { water: 1000, organic: 1600, ash: 2500 } as const;

/**
 * Volume shares of a compost from wet bulk density, wet-basis moisture and organic fraction of dry solids.
 * @throws RangeError when water and solids together would fill more than the whole volume.
 */
export function phaseFractions(
  bulkDensityKgPerM3: number,
  moistureFraction: number,
  organicFraction: number,
): PhaseFractions {
  const water = (bulkDensityKgPerM3 * moistureFraction) / phaseDensity.water;
  const perKgSolids = organicFraction / phaseDensity.organic + (1 - organicFraction) / phaseDensity.ash;
  const solids = bulkDensityKgPerM3 * (1 - moistureFraction) * perKgSolids;
  const air = 1 - water - solids;
  if (air < 0) {
    throw new RangeError(
      `bulkDensityKgPerM3 ${bulkDensityKgPerM3} at moisture ${moistureFraction} leaves no room for air (${air.toFixed(3)})`,
    );
  }
  return { water, solids, air };
}
