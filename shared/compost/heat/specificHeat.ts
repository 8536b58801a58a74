/** Specific heat of liquid water as the compost formulas round it, J/(kg K). */
export const waterSpecificHeat = 4180;

/** Dry-solids part of Mears' formula, J per kg dry solids per kelvin. */
export function drySolidsSpecificHeat(ashFraction: number): number {
  return 1480 - 640 * ashFraction;
}

/**
 * Specific heat of wet compost, J/(kg wet K): c_DS = 1.48 - 0.64 A + 4.18 X kJ per kg dry solids, times dry matter
 * (Mears, Singley, Ali & Rupp 1975; from memory, unconfirmed).
 */
export function compostSpecificHeat(moistureFraction: number, ashFraction: number): number {
  return drySolidsSpecificHeat(ashFraction) * (1 - moistureFraction) + waterSpecificHeat * moistureFraction;
}

/** Specific heat by simple mixing, J/(kg wet K); solids 1050 after Haug, up to about 1400 (from memory, unconfirmed). */
export function compostSpecificHeatHaug(moistureFraction: number, solidsSpecificHeat = 1050): number {
  return solidsSpecificHeat * (1 - moistureFraction) + waterSpecificHeat * moistureFraction;
}
