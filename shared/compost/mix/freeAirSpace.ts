/**
 * Free air space of a mix from its bulk density (kg/m3), moisture (wet basis 0..1) and organic share of dry solids.
 *
 * Every formula has the form FAS = 1 - bulk density x (volume the water and solids of one kg fill), so one function
 * per formula gives that volume and the rest follows. The formulas differ by up to 10 points: choose one and keep the
 * thresholds that belong to it.
 */
import { requireBetween, requirePositive } from '../allowed.ts';

export type FreeAirSpaceFormula =
  | 'constituent-densities'
  | 'specific-gravities'
  | 'particle-density-fit'
  | 'pycnometer-fit';

/** What a person is told about each formula, with its id, source and status in the reference pack section 3. */
export const freeAirSpaceFormulas: Readonly<Record<FreeAirSpaceFormula, string>> = {
  'constituent-densities':
    '3a: water 1000, organic 1600, ash 2500 kg/m3 (Richard et al. 2004; equation from memory, unconfirmed)',
  'specific-gravities': '3b: volatile solids 1.0, ash 2.5 (Haug 1993; from memory, unconfirmed)',
  'particle-density-fit': '3c: 1 - 0.00096 bulk density (Su, McCartney & Wang; confirmed)',
  'pycnometer-fit': '3c: 1 - 0.00090 bulk density (Su, McCartney & Wang; confirmed)',
};

/** Volume, m3, that the water and solids in one kg of wet material fill. */
export function filledVolume(
  formula: FreeAirSpaceFormula,
  moistureFraction: number,
  organicFractionDry: number,
): number {
  requireBetween('moistureFraction', moistureFraction, 0, 1);
  requireBetween('organicFractionDry', organicFractionDry, 0, 1);
  return filledVolumes[formula](moistureFraction, 1 - moistureFraction, organicFractionDry);
}

const filledVolumes: Readonly<
  Record<FreeAirSpaceFormula, (moisture: number, dry: number, organic: number) => number>
> = {
  'constituent-densities': (moisture, dry, organic) =>
    moisture / 1000 + (dry * organic) / 1600 + (dry * (1 - organic)) / 2500,
  'specific-gravities': (moisture, dry, organic) =>
    moisture / 1000 + (dry * (organic / 1 + (1 - organic) / 2.5)) / 1000,
  'particle-density-fit': () => 0.096 / 100,
  'pycnometer-fit': () => 0.09 / 100,
};

/**
 * Free air space, fraction 0..1. Throws when the bulk density is more than solid: then no formula holds, and one of
 * the numbers put in is wrong.
 */
export function freeAirSpace(
  formula: FreeAirSpaceFormula,
  bulkDensity: number,
  moistureFraction: number,
  organicFractionDry: number,
): number {
  const filled = filledVolume(formula, moistureFraction, organicFractionDry);
  requireBetween('bulkDensity', bulkDensity, 0, 1 / filled);
  return Math.max(0, 1 - bulkDensity * filled);
}

/** Bulk density, kg/m3, at which the free air space has come down to `fraction`. */
export function bulkDensityAtFreeAirSpace(
  formula: FreeAirSpaceFormula,
  fraction: number,
  moistureFraction: number,
  organicFractionDry: number,
): number {
  requireBetween('fraction', fraction, 0, 1);
  return (1 - fraction) / filledVolume(formula, moistureFraction, organicFractionDry);
}

/**
 * Highest moisture 0..1 that still leaves `fraction` of air, when water is added to a material of fixed DRY bulk
 * density (kg dry solids per m3). Formulas 3a and 3b only: the fits of 3c do not see water apart from weight.
 * Throws when the dry material alone leaves less air than asked.
 */
export function highestMoistureWithFreeAirSpace(
  formula: 'constituent-densities' | 'specific-gravities',
  fraction: number,
  dryBulkDensity: number,
  organicFractionDry: number,
): number {
  requirePositive('dryBulkDensity', dryBulkDensity);
  const dryVolume = dryBulkDensity * filledVolume(formula, 0, organicFractionDry);
  requireBetween('fraction', fraction, 0, 1 - dryVolume);
  const waterKilograms = 1000 * (1 - fraction - dryVolume);
  return waterKilograms / (waterKilograms + dryBulkDensity);
}

/** How well a gas spreads through the pores, as a share of its diffusivity in open air: S^2 (3d, Papendick & Campbell). */
export function effectiveDiffusivityShare(airFilledPorosity: number): number {
  return requireBetween('airFilledPorosity', airFilledPorosity, 0, 1) ** 2;
}
