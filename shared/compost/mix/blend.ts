/**
 * Mix planner arithmetic. This folder: the feedstock table and what it lacks (`feedstocks`, `ingredientFromFeedstock`),
 * what a mix of known amounts is (`blend`, here), free air space by named formula (`freeAirSpace`), unknown amounts
 * from goals (`solveMix`) and why they may not exist (`whyInfeasible`), the ranges to aim for (`targets`), the rough
 * mass-averaged C:N people use on paper (`roughMix`) and composting a hot ingredient first (`preCompost`).
 * Source: reference pack section 1 (Cornell mix pages; NRAES-54). Amounts are wet kilograms.
 */
import { requireBetween, requireNotNegative, requirePositive } from '../allowed.ts';
import { type FreeAirSpaceFormula, freeAirSpace } from './freeAirSpace.ts';
import { checkIngredient, type Part, volumePerKilogram } from './ingredient.ts';

export interface Blend {
  readonly wetKilograms: number;
  readonly dryKilograms: number;
  readonly carbonKilograms: number;
  readonly nitrogenKilograms: number;
  readonly moistureFraction: number;
  /** `null` when the mix holds no nitrogen. */
  readonly carbonToNitrogen: number | null;
  /** Of dry solids; `null` when an ingredient's is not known or nothing is dry. */
  readonly organicFractionDry: number | null;
  /** Sum of the parts before settling; `null` when a bulk density is not known. Real mixes pack 10-40 % more (MU). */
  readonly cubicMetres: number | null;
  readonly bulkDensityKilogramsPerCubicMetre: number | null;
}

/** What a mix of known amounts is (eq. 1b, 1d, 1i). Throws on a negative amount or nothing at all. */
export function blend(parts: readonly Part[]): Blend {
  for (const part of parts) {
    checkIngredient(part.ingredient);
    requireNotNegative(`wetKilograms of ${part.ingredient.name}`, part.wetKilograms);
  }
  const wetKilograms = requirePositive(
    'wetKilograms of the mix',
    sum(parts, () => 1),
  );
  const dryKilograms = sum(parts, ({ moistureFraction }) => 1 - moistureFraction);
  const carbonKilograms = sum(parts, (each) => (1 - each.moistureFraction) * each.carbonFractionDry);
  const nitrogenKilograms = sum(parts, (each) => (1 - each.moistureFraction) * each.nitrogenFractionDry);
  const cubicMetres = volumeOf(parts);
  return {
    wetKilograms,
    dryKilograms,
    carbonKilograms,
    nitrogenKilograms,
    moistureFraction: 1 - dryKilograms / wetKilograms,
    carbonToNitrogen: nitrogenKilograms > 0 ? carbonKilograms / nitrogenKilograms : null,
    organicFractionDry: organicOf(parts, dryKilograms),
    cubicMetres,
    bulkDensityKilogramsPerCubicMetre: cubicMetres ? wetKilograms / cubicMetres : null,
  };
}

/**
 * Free air space of a blend, 0..1, after its volume has packed by `packingFraction` (0 = as loose as the parts).
 * `null` when a bulk density or organic share is missing. Throws when the mix would be denser than solid.
 */
export function blendFreeAirSpace(
  formula: FreeAirSpaceFormula,
  mix: Blend,
  packingFraction = 0,
): number | null {
  requireBetween('packingFraction', packingFraction, 0, 0.9);
  if (mix.bulkDensityKilogramsPerCubicMetre === null || mix.organicFractionDry === null) return null;
  const packed = mix.bulkDensityKilogramsPerCubicMetre / (1 - packingFraction);
  return freeAirSpace(formula, packed, mix.moistureFraction, mix.organicFractionDry);
}

function sum(parts: readonly Part[], perKilogram: (ingredient: Part['ingredient']) => number): number {
  return parts.reduce((total, part) => total + part.wetKilograms * perKilogram(part.ingredient), 0);
}

function organicOf(parts: readonly Part[], dryKilograms: number): number | null {
  const used = parts.filter((part) => part.wetKilograms > 0);
  if (dryKilograms === 0 || used.some(({ ingredient }) => ingredient.organicFractionDry === null))
    return null;
  const organic = sum(used, (each) => (1 - each.moistureFraction) * (each.organicFractionDry ?? 0));
  return Math.min(organic / dryKilograms, 1);
}

function volumeOf(parts: readonly Part[]): number | null {
  const used = parts.filter((part) => part.wetKilograms > 0);
  const known = ({ ingredient }: Part) =>
    ingredient.soaksIn || ingredient.bulkDensityKilogramsPerCubicMetre !== null;
  return used.every(known) ? sum(used, volumePerKilogram) : null;
}
