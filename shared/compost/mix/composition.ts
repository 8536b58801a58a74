import { requireBetween, requirePositive } from '../allowed.ts';

/** Carbon of volatile solids is taken as 1/1.8 (55 %); most biological materials run 45-60 %. */
const volatileSolidsPerCarbon = 1.8;

/** Moisture, wet basis 0..1, of a sample weighed as it is and after 24 h at 105-110 C (eq. 1a, Cornell). */
export function moistureFromWeights(wetWeight: number, dryWeight: number): number {
  requirePositive('wetWeight', wetWeight);
  requireBetween('dryWeight', dryWeight, 0, wetWeight);
  return (wetWeight - dryWeight) / wetWeight;
}

/** Carbon fraction of dry solids from the nitrogen fraction and C:N (eq. 1f, Cornell). */
export function carbonFromNitrogen(nitrogenFractionDry: number, carbonToNitrogen: number): number {
  return nitrogenFractionDry * carbonToNitrogen;
}

/** Carbon fraction of dry solids from the volatile (organic) fraction: VS / 1.8 (eq. 1g, Cornell after Adams 1951). */
export function carbonFromOrganic(organicFractionDry: number): number {
  return requireBetween('organicFractionDry', organicFractionDry, 0, 1) / volatileSolidsPerCarbon;
}

/** Organic fraction of dry solids guessed back from the carbon fraction (eq. 1g turned round), never above 1. */
export function organicFromCarbon(carbonFractionDry: number): number {
  return Math.min(carbonFractionDry * volatileSolidsPerCarbon, 1);
}
