import { dryBasisFromWetFraction } from '../../units/moistureBasis.ts';
import { requireBetween, requireNotNegative, requirePositive } from '../allowed.ts';

const waterDensity = 1000;

/** Wet-basis fraction (kg water per kg of the whole) from dry-basis moisture. */
export function wetBasisFromDryBasis(dryBasis: number): number {
  requireNotNegative('dryBasis', dryBasis);
  return dryBasis / (1 + dryBasis);
}

/** Volumetric moisture (m3 water per m3) from wet basis and dry bulk density (kg dry matter per m3). */
export function volumetricFromWetBasis(wetBasisFraction: number, dryBulkDensity: number): number {
  requirePositive('dryBulkDensity', dryBulkDensity);
  return (dryBasisFromWetFraction(wetBasisFraction) * dryBulkDensity) / waterDensity;
}

/** Wet-basis fraction from volumetric moisture and dry bulk density (kg dry matter per m3). */
export function wetBasisFromVolumetric(volumetricFraction: number, dryBulkDensity: number): number {
  requirePositive('dryBulkDensity', dryBulkDensity);
  requireBetween('volumetricFraction', volumetricFraction, 0, 1);
  return wetBasisFromDryBasis((volumetricFraction * waterDensity) / dryBulkDensity);
}

/** Wet-basis fraction of a sample weighed before and after drying to constant mass (same unit for both). */
export function wetBasisFromWeighing(wetMass: number, dryMass: number): number {
  requirePositive('wetMass', wetMass);
  requireBetween('dryMass', dryMass, 0, wetMass);
  return (wetMass - dryMass) / wetMass;
}
