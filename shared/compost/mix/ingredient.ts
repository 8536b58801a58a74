import { requireBetween, requireNotNegative, requirePositive } from '../allowed.ts';

/** One thing that goes into a mix, as it is shovelled. Shares of dry solids are fractions 0..1. */
export interface Ingredient {
  readonly name: string;
  /** Wet basis: kg water per kg as it is. */
  readonly moistureFraction: number;
  readonly carbonFractionDry: number;
  readonly nitrogenFractionDry: number;
  /** Volatile solids (what burns off) per kg dry solids; `null` when not known. Free air space 3a and 3b need it. */
  readonly organicFractionDry: number | null;
  /** Loose, as it is; `null` when not known. */
  readonly bulkDensityKilogramsPerCubicMetre: number | null;
  /** True for water: it fills pores and adds no volume to the mix. */
  readonly soaksIn: boolean;
}

/** An amount of an ingredient, weighed as it is (wet). */
export interface Part {
  readonly ingredient: Ingredient;
  readonly wetKilograms: number;
}

/** Water to wet a mix with. That it adds no volume is our assumption: it goes into pores, until they are full. */
export const water: Ingredient = {
  name: 'Water',
  moistureFraction: 1,
  carbonFractionDry: 0,
  nitrogenFractionDry: 0,
  organicFractionDry: 0,
  bulkDensityKilogramsPerCubicMetre: null,
  soaksIn: true,
};

/** Returns the ingredient, or throws a `RangeError` naming the field that cannot be. */
export function checkIngredient(ingredient: Ingredient): Ingredient {
  const of = (field: string) => `${field} of ${ingredient.name}`;
  requireBetween(of('moistureFraction'), ingredient.moistureFraction, 0, 1);
  requireBetween(of('carbonFractionDry'), ingredient.carbonFractionDry, 0, 1);
  requireBetween(of('nitrogenFractionDry'), ingredient.nitrogenFractionDry, 0, 1);
  if (ingredient.organicFractionDry !== null)
    requireBetween(of('organicFractionDry'), ingredient.organicFractionDry, 0, 1);
  if (ingredient.bulkDensityKilogramsPerCubicMetre !== null)
    requirePositive(of('bulkDensity'), ingredient.bulkDensityKilogramsPerCubicMetre);
  return ingredient;
}

/** Volume a kilogram takes before settling, m3 (eq. 1i). Throws when the bulk density is not known. */
export function volumePerKilogram(ingredient: Ingredient): number {
  if (ingredient.soaksIn) return 0;
  if (ingredient.bulkDensityKilogramsPerCubicMetre === null)
    throw new RangeError(
      `bulkDensity of ${ingredient.name} is not known; weigh a bucket of known volume and enter it`,
    );
  return 1 / ingredient.bulkDensityKilogramsPerCubicMetre;
}

/** A part measured by volume, in m3 before settling (eq. 1i). */
export function partByVolume(ingredient: Ingredient, cubicMetres: number): Part {
  requireNotNegative('cubicMetres', cubicMetres);
  const density = ingredient.bulkDensityKilogramsPerCubicMetre ?? (ingredient.soaksIn ? 1000 : null);
  if (density === null)
    throw new RangeError(`bulkDensity of ${ingredient.name} is not known; enter it or a weight`);
  return { ingredient, wetKilograms: cubicMetres * density };
}
