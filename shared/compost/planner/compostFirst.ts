import { type Ingredient, type Part, water } from '../mix/ingredient.ts';
import { type PreComposted, preCompost } from '../mix/preCompost.ts';
import { materialFromMix } from '../pileModel/materialFromMix.ts';
import type { MaterialParameters } from '../pileModel/parameters.ts';
import { type MixFigures, mixFigures } from './mixFigures.ts';
import { materialOfMix } from './pilePlan.ts';

/** A part of the plan with the line it came from. */
export interface KeyedPart extends Part {
  readonly key: string;
}

export interface CompostedFirst {
  /** Parts of the main pile after the chosen ones were composted first; water as needed for the moisture before. */
  readonly parts: readonly Part[];
  readonly figures: MixFigures;
  readonly material: MaterialParameters;
  readonly dryKilogramsLost: number;
  readonly nitrogenKilogramsLost: number;
  readonly nitrogenShareLost: number;
  /** Litres to add when the main pile is built, to bring it to the moisture of the fresh mix. */
  readonly litresToAdd: number;
}

export type FirstAnswer =
  | { readonly ok: true; readonly first: CompostedFirst }
  | { readonly ok: false; readonly why: string };

/**
 * What the main pile becomes when an ingredient, or with `'all'` the whole mix, is composted hot for some days
 * first. The pools of quick and slow matter are shared among the ingredients by their own C:N; those of what is
 * composted first shrink at the rates `materialFromMix` gives it, and what is left of the slow pool is its slower
 * half, as in the model's own pre-composted cage.
 */
export function compostFirst(
  parts: readonly KeyedPart[],
  lineKey: string | 'all',
  plan: { readonly days: number; readonly packingFraction: number; readonly startCelsius: number },
): FirstAnswer {
  const fresh = mixFigures(parts, plan.packingFraction);
  if (fresh === null) return { ok: false, why: 'There is no mix yet.' };
  const made = materialOfMix(fresh, plan.startCelsius);
  if ('missing' in made) return { ok: false, why: `The course needs ${made.missing}.` };
  const chosen = parts.filter(
    (part) => part.ingredient.soaksIn === false && (lineKey === 'all' || part.key === lineKey),
  );
  if (chosen.length === 0) return { ok: false, why: 'Choose what to compost first.' };
  const done = chosen.map((part) => ({ part, after: afterwards(part, plan.days) }));
  const others: Part[] = parts.filter((part) => !chosen.includes(part) && !part.ingredient.soaksIn);
  const dryParts = [...others, ...done.map(({ after }) => after.part)];
  const watered = makeUpWater(dryParts, fresh.moistureFraction);
  const figures = mixFigures(watered.parts, plan.packingFraction)!;
  const nitrogenKilogramsLost = sum(done, ({ after }) => after.nitrogenKilogramsLost);
  return {
    ok: true,
    first: {
      parts: watered.parts,
      figures,
      material: movedWarm(
        materialAfter(made.material, figures, poolShares(parts, chosen), plan.days),
        sum(done, ({ after }) => after.part.wetKilograms) / figures.wetKilograms,
      ),
      dryKilogramsLost: sum(done, ({ after }) => after.dryKilogramsLost),
      nitrogenKilogramsLost,
      nitrogenShareLost: nitrogenKilogramsLost / fresh.nitrogenKilograms,
      litresToAdd: watered.litres,
    },
  };
}

function sum<T>(values: readonly T[], of: (value: T) => number): number {
  return values.reduce((total, value) => total + of(value), 0);
}

/** How an ingredient works on its own, from its own C:N. */
function characterOf(ingredient: Ingredient): MaterialParameters {
  const { carbonFractionDry, nitrogenFractionDry, organicFractionDry } = ingredient;
  return materialFromMix({
    bulkDensityKgPerM3: 500,
    moistureFraction: 0.6,
    organicFractionDry: organicFractionDry ?? 0.85,
    carbonNitrogenRatio:
      nitrogenFractionDry > 0 ? Math.max(1, carbonFractionDry / nitrogenFractionDry) : 1000,
    startCelsius: 15,
  });
}

/** Ends as wet as it began: it is kept moist while it is composted. */
function afterwards(part: Part, days: number): PreComposted {
  const character = characterOf(part.ingredient);
  const ingredient = { ...part.ingredient, organicFractionDry: part.ingredient.organicFractionDry ?? 0.85 };
  return preCompost({ ...part, ingredient }, days, Math.min(0.9, ingredient.moistureFraction), {
    degradableShare: character.degradableFraction,
    fastShare: character.fastShareFraction,
    fastRatePerDay: character.fastRatePerDay,
    slowRatePerDay: character.slowRatePerDay,
  });
}

interface PoolShares {
  readonly fast: number;
  readonly slow: number;
}

/** Which part of the mix's quick and slow matter belongs to what is composted first. */
function poolShares(parts: readonly Part[], chosen: readonly Part[]): PoolShares {
  const solid = parts.filter(({ ingredient }) => !ingredient.soaksIn);
  const pool = (of: readonly Part[], share: (character: MaterialParameters) => number) =>
    sum(of, ({ ingredient, wetKilograms }) => {
      const character = characterOf(ingredient);
      const organic =
        wetKilograms * (1 - ingredient.moistureFraction) * (ingredient.organicFractionDry ?? 0.85);
      return organic * character.degradableFraction * share(character);
    });
  const fast = (character: MaterialParameters) => character.fastShareFraction;
  const slow = (character: MaterialParameters) => 1 - character.fastShareFraction;
  return { fast: pool(chosen, fast) / pool(solid, fast), slow: pool(chosen, slow) / pool(solid, slow) };
}

function materialAfter(
  fresh: MaterialParameters,
  figures: MixFigures,
  share: PoolShares,
  days: number,
): MaterialParameters {
  const left = (part: number, rate: number) => 1 - part * (1 - Math.exp(-rate * days));
  const fast = fresh.fastShareFraction * left(share.fast, fresh.fastRatePerDay);
  const slow = (1 - fresh.fastShareFraction) * left(share.slow, fresh.slowRatePerDay);
  const degradable = fresh.degradableFraction * (fast + slow);
  const organic = degradable + (1 - fresh.degradableFraction);
  const ash = fresh.ashFraction / (fresh.ashFraction + (1 - fresh.ashFraction) * organic);
  return {
    ...fresh,
    bulkDensityKgPerM3: figures.bulkDensity ?? fresh.bulkDensityKgPerM3,
    moistureFraction: figures.moistureFraction,
    ashFraction: ash,
    degradableFraction: degradable / organic,
    fastShareFraction: fast / (fast + slow),
    slowRatePerDay: fresh.slowRatePerDay * (1 - share.slow / 2),
  };
}

/** What is composted first is moved while it still works: warm, and full of microbes. Both figures ours. */
const moved = { celsius: 35, inoculumFraction: 0.6 } as const;

function movedWarm(material: MaterialParameters, share: number): MaterialParameters {
  const mix = (fresh: number, warm: number) => fresh + (Math.max(fresh, warm) - fresh) * share;
  return {
    ...material,
    startCelsius: mix(material.startCelsius, moved.celsius),
    inoculumFraction: mix(material.inoculumFraction, moved.inoculumFraction),
  };
}

/** Water that brings parts to a moisture; none when they are as wet already. */
function makeUpWater(parts: readonly Part[], moistureFraction: number): { parts: Part[]; litres: number } {
  const wet = sum(parts, ({ wetKilograms }) => wetKilograms);
  const dry = sum(parts, ({ ingredient, wetKilograms }) => wetKilograms * (1 - ingredient.moistureFraction));
  const litres = Math.max(0, dry / (1 - moistureFraction) - wet);
  if (litres === 0) return { parts: [...parts], litres };
  return { parts: [...parts, { ingredient: water, wetKilograms: litres }], litres };
}
