import { carbonFromNitrogen, organicFromCarbon } from './composition.ts';
import type { Feedstock } from './feedstockRow.ts';
import { checkIngredient, type Ingredient } from './ingredient.ts';

/** Measured values a person enters; each replaces the table's. */
export type Measured = Partial<Omit<Ingredient, 'soaksIn'>> & { readonly carbonToNitrogen?: number };

export type FromFeedstock =
  | { readonly ingredient: Ingredient; readonly assumptions: readonly string[] }
  | { readonly ingredient: null; readonly missing: readonly string[] };

/** More carbon than this in dry solids cannot be: eq. 1g with the richest biological matter (60 % of volatile solids). */
const mostCarbon = 0.6;
/** Stands in when N x C:N is impossible: volatile solids / 1.8 at 10 % ash. Our choice. */
const usualCarbon = 0.5;

/**
 * Makes an ingredient from the table's typical values and whatever was measured. Says which values must still be
 * measured when the table has none, and lists in plain words what had to be assumed.
 */
export function ingredientFromFeedstock(feedstock: Feedstock, measured: Measured = {}): FromFeedstock {
  const moisture = measured.moistureFraction ?? feedstock.moistureFraction.typical;
  const nitrogen = measured.nitrogenFractionDry ?? feedstock.nitrogenFractionDry.typical;
  const ratio = measured.carbonToNitrogen ?? feedstock.carbonToNitrogen.typical;
  if (
    moisture === null ||
    nitrogen === null ||
    (ratio === null && measured.carbonFractionDry === undefined)
  ) {
    const needs = { moisture, nitrogen, 'carbon to nitrogen ratio': ratio };
    return {
      ingredient: null,
      missing: Object.entries(needs).flatMap(([name, value]) => (value === null ? [name] : [])),
    };
  }
  const composed = carbonAndNitrogen(measured.carbonFractionDry ?? null, nitrogen, ratio ?? 0);
  const organic = measured.organicFractionDry ?? organicFromCarbon(composed.carbon);
  const ingredient = checkIngredient({
    name: measured.name ?? feedstock.name,
    moistureFraction: moisture,
    carbonFractionDry: composed.carbon,
    nitrogenFractionDry: composed.nitrogen,
    organicFractionDry: organic,
    bulkDensityKilogramsPerCubicMetre:
      measured.bulkDensityKilogramsPerCubicMetre ?? feedstock.bulkDensityKilogramsPerCubicMetre.typical,
    soaksIn: false,
  });
  return { ingredient, assumptions: [...composed.assumptions, ...organicAssumption(measured)] };
}

/** Carbon as measured, or N x C:N; where that is impossible the ratio is kept and nitrogen gives way. */
function carbonAndNitrogen(measuredCarbon: number | null, nitrogen: number, ratio: number) {
  if (measuredCarbon !== null) return { carbon: measuredCarbon, nitrogen, assumptions: [] };
  const carbon = carbonFromNitrogen(nitrogen, ratio);
  if (carbon <= mostCarbon) return { carbon, nitrogen, assumptions: [] };
  const percent = (fraction: number) => `${Number((fraction * 100).toPrecision(3))} %`;
  const text =
    `nitrogen ${percent(nitrogen)} with C:N ${ratio} would mean ${percent(carbon)} carbon, which cannot be: ` +
    `C:N is kept, carbon is taken as ${percent(usualCarbon)} and nitrogen as ${percent(usualCarbon / ratio)}`;
  return { carbon: usualCarbon, nitrogen: usualCarbon / ratio, assumptions: [text] };
}

function organicAssumption(measured: Measured): string[] {
  return measured.organicFractionDry == null
    ? ['organic share is taken as 1.8 x carbon (ash not measured)']
    : [];
}
