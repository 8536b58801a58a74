import { blend } from '../mix/blend.ts';
import { type FreeAirSpaceFormula, filledVolume } from '../mix/freeAirSpace.ts';
import type { Ingredient, Part } from '../mix/ingredient.ts';

/** One formula for free air space throughout the planner: the one that sees water (pack 3a; equation from memory). */
export const plannerFormula: FreeAirSpaceFormula = 'constituent-densities';

/** What a mix is, packed as it will lie in the pile. Fractions 0..1, kg/m3, m3, kg. */
export interface MixFigures {
  readonly wetKilograms: number;
  readonly dryKilograms: number;
  readonly nitrogenKilograms: number;
  readonly carbonToNitrogen: number | null;
  readonly moistureFraction: number;
  readonly organicFractionDry: number | null;
  /** `null` where a bulk density is missing. */
  readonly cubicMetres: number | null;
  readonly bulkDensity: number | null;
  readonly freeAirSpace: number | null;
  /** Litres more than the pores hold: they run out at the bottom. */
  readonly litresTooMany: number;
}

/**
 * An ingredient as it will lie in the pile: denser by the packing, though never more than solid. Doing it to the
 * ingredients makes every sum, goal and explanation speak of the pile as built.
 */
export function packed(ingredient: Ingredient, packingFraction: number): Ingredient {
  const loose = ingredient.bulkDensityKilogramsPerCubicMetre;
  if (loose === null || ingredient.soaksIn) return ingredient;
  const solid =
    1 / filledVolume(plannerFormula, ingredient.moistureFraction, ingredient.organicFractionDry ?? 1);
  const dense = Math.max(loose, Math.min(loose / (1 - packingFraction), solid));
  return { ...ingredient, bulkDensityKilogramsPerCubicMetre: dense };
}

export function packedParts(parts: readonly Part[], packingFraction: number): Part[] {
  return parts.map((part) => ({ ...part, ingredient: packed(part.ingredient, packingFraction) }));
}

/** What loose parts come to once packed; null when nothing weighs anything. */
export function mixFigures(parts: readonly Part[], packingFraction: number): MixFigures | null {
  if (!parts.some(({ wetKilograms }) => wetKilograms > 0)) return null;
  const mix = blend(packedParts(parts, packingFraction));
  const density = mix.bulkDensityKilogramsPerCubicMetre;
  const air =
    density === null || mix.organicFractionDry === null
      ? null
      : 1 - density * filledVolume(plannerFormula, mix.moistureFraction, mix.organicFractionDry);
  return {
    wetKilograms: mix.wetKilograms,
    dryKilograms: mix.dryKilograms,
    nitrogenKilograms: mix.nitrogenKilograms,
    carbonToNitrogen: mix.carbonToNitrogen,
    moistureFraction: mix.moistureFraction,
    organicFractionDry: mix.organicFractionDry,
    cubicMetres: mix.cubicMetres,
    bulkDensity: density,
    freeAirSpace: air === null ? null : Math.max(0, air),
    litresTooMany: air === null || air >= 0 ? 0 : -air * (mix.cubicMetres ?? 0) * 1000,
  };
}
