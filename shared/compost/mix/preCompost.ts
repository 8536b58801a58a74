/**
 * Composting a hot (nitrogen-rich, quick to heat) ingredient by itself first, so that the main pile heats less.
 *
 * Two pools of degradable organic matter decay at steady rates; ash stays; carbon goes with the organic matter that
 * is lost; a share of the nitrogen goes with the degradable matter that is lost, as ammonia.
 */
import { requireBetween, requireNotNegative, requirePositive } from '../allowed.ts';
import { checkIngredient, type Ingredient, type Part } from './ingredient.ts';

/** What is taken for granted; each can be replaced. */
export interface PreCompostAssumptions {
  /** Degradable share of the organic matter. 0.5: scale check of pack 5.9. Lignin lowers it (pack 4.4). */
  readonly degradableShare: number;
  /** Fast share of the degradable matter and both rates: worked example of pack 4.3, order of magnitude only (MU). */
  readonly fastShare: number;
  readonly fastRatePerDay: number;
  readonly slowRatePerDay: number;
  /** Nitrogen lost if all degradable matter went. 0.4 is from memory (unconfirmed); the reference pack gives none. */
  readonly nitrogenLossShare: number;
  /** Heat per kg of degradable matter oxidised: pack 4.5, 17.5 MJ/kg (seen in a thesis model). */
  readonly megajoulesPerKilogram: number;
}

export const preCompostDefaults: PreCompostAssumptions = {
  degradableShare: 0.5,
  fastShare: 0.6,
  fastRatePerDay: 0.1,
  slowRatePerDay: 0.01,
  nitrogenLossShare: 0.4,
  megajoulesPerKilogram: 17.5,
};

/** Degradable matter, kg. */
export interface DegradablePools {
  readonly fastKilograms: number;
  readonly slowKilograms: number;
}

export interface PreComposted {
  /** What goes into the main mix. Bulk density is taken as unchanged until someone weighs a bucket. */
  readonly part: Part;
  readonly poolsBefore: DegradablePools;
  readonly poolsAfter: DegradablePools;
  readonly dryKilogramsLost: number;
  readonly carbonKilogramsLost: number;
  readonly nitrogenKilogramsLost: number;
  /** Water that leaves; negative when water must be added to end at the moisture asked. */
  readonly waterKilogramsLost: number;
  /** Heat given off outside the main pile, and heat still to come in it, MJ. */
  readonly heatReleasedMegajoules: number;
  readonly heatLeftMegajoules: number;
}

/**
 * What `days` of hot composting make of a part, ending at a moisture (wet basis 0..1, below 1).
 * Throws when the ingredient's organic share is not known or a number cannot be.
 */
export function preCompost(
  part: Part,
  days: number,
  endMoistureFraction: number,
  assumptions: Partial<PreCompostAssumptions> = {},
): PreComposted {
  const assumed = { ...preCompostDefaults, ...assumptions };
  checkInput(part, days, endMoistureFraction, assumed);
  const before = solidsOf(part);
  const poolsBefore = poolsOf(before.organic * assumed.degradableShare, assumed);
  const poolsAfter = decay(poolsBefore, days, assumed);
  const lost = total(poolsBefore) - total(poolsAfter);
  const lostShare = lost > 0 ? lost / total(poolsBefore) : 0;
  const carbonKilogramsLost = before.carbon * assumed.degradableShare * lostShare;
  const nitrogenKilogramsLost = before.nitrogen * assumed.nitrogenLossShare * lostShare;
  const after = {
    dry: before.dry - lost,
    organic: before.organic - lost,
    carbon: before.carbon - carbonKilogramsLost,
    nitrogen: before.nitrogen - nitrogenKilogramsLost,
  };
  const wetAfter = after.dry / (1 - endMoistureFraction);
  return {
    part: {
      ingredient: ingredientOf(part.ingredient, after, days, endMoistureFraction),
      wetKilograms: wetAfter,
    },
    poolsBefore,
    poolsAfter,
    dryKilogramsLost: lost,
    carbonKilogramsLost,
    nitrogenKilogramsLost,
    waterKilogramsLost: part.wetKilograms - before.dry - (wetAfter - after.dry),
    heatReleasedMegajoules: lost * assumed.megajoulesPerKilogram,
    heatLeftMegajoules: total(poolsAfter) * assumed.megajoulesPerKilogram,
  };
}

/** Kilograms in a part. */
interface Solids {
  readonly dry: number;
  readonly organic: number;
  readonly carbon: number;
  readonly nitrogen: number;
}

function solidsOf({ ingredient, wetKilograms }: Part): Solids {
  const dry = requirePositive('dry solids in the part', wetKilograms * (1 - ingredient.moistureFraction));
  return {
    dry,
    organic: dry * ingredient.organicFractionDry!,
    carbon: dry * ingredient.carbonFractionDry,
    nitrogen: dry * ingredient.nitrogenFractionDry,
  };
}

function ingredientOf(before: Ingredient, after: Solids, days: number, moistureFraction: number): Ingredient {
  return {
    ...before,
    name: `${before.name}, composted ${days} d first`,
    moistureFraction,
    carbonFractionDry: after.carbon / after.dry,
    nitrogenFractionDry: after.nitrogen / after.dry,
    organicFractionDry: after.organic / after.dry,
  };
}

function poolsOf(degradable: number, { fastShare }: PreCompostAssumptions): DegradablePools {
  return { fastKilograms: degradable * fastShare, slowKilograms: degradable * (1 - fastShare) };
}

function decay(pools: DegradablePools, days: number, assumed: PreCompostAssumptions): DegradablePools {
  return {
    fastKilograms: pools.fastKilograms * Math.exp(-assumed.fastRatePerDay * days),
    slowKilograms: pools.slowKilograms * Math.exp(-assumed.slowRatePerDay * days),
  };
}

function total(pools: DegradablePools): number {
  return pools.fastKilograms + pools.slowKilograms;
}

function checkInput(
  part: Part,
  days: number,
  endMoistureFraction: number,
  assumed: PreCompostAssumptions,
): void {
  checkIngredient(part.ingredient);
  requirePositive('wetKilograms', part.wetKilograms);
  requireNotNegative('days', days);
  requireBetween('endMoistureFraction', endMoistureFraction, 0, 0.95);
  requireBetween('degradableShare', assumed.degradableShare, 0, 0.95);
  requireBetween('fastShare', assumed.fastShare, 0, 1);
  requireBetween('nitrogenLossShare', assumed.nitrogenLossShare, 0, 1);
  requireNotNegative('fastRatePerDay', assumed.fastRatePerDay);
  requireNotNegative('slowRatePerDay', assumed.slowRatePerDay);
  if (part.ingredient.organicFractionDry === null)
    throw new RangeError(
      `organicFractionDry of ${part.ingredient.name} is not known; pre-composting needs it`,
    );
}
