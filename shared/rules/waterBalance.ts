import type { Banded } from '../compost/forecast/banded.ts';
import { exhaustLoad, metabolicWaterKgPerKg, waterEvaporatedKg } from '../compost/heat/evaporation.ts';
import { remainingFraction } from '../compost/kinetics/decay.ts';
import { defaultHeatJoulesPerKg } from '../compost/kinetics/heatRelease.ts';
import { latentHeat } from '../compost/psychrometrics.ts';
import type { PileBuild } from '../yard/build.ts';
import type { PileMethod } from '../yard/method.ts';
import { quickRatePerDay, slowRatePerDay } from './materialLeft.ts';

/**
 * Heat and water of a pile without a moisture probe, from its core and the air, kg per kg of the pile as built.
 * Every figure here is ours unless a source is named: it tells drying piles from moist ones, not 52 % from 55 %.
 */
export interface PileBalance {
  /** Water if it dries faster, as, and slower than usual; `band` order. */
  readonly driest: number;
  readonly middle: number;
  readonly wettest: number;
  /** Dry matter left. */
  readonly dry: number;
}

/** What most piles of a method are like; what is known of one pile takes the place of its figures. */
export interface MethodBalance {
  /** Wet-basis moisture as built and how far it is usually off. */
  readonly builtFraction: number;
  readonly builtSpread: number;
  /** Share of its warmth over the air a pile loses through its skin in a day: small piles more. Ours. */
  readonly skinLossPerDay: number;
  /** Mass as built, kg: turns litres into moisture. */
  readonly massKg: number;
  readonly bulkDensityKgPerM3: number;
  /** Quick and slow food, kg per kg of dry matter as built (half the organic matter usable: reference 5.9). */
  readonly quickOfDry: number;
  readonly slowOfDry: number;
}

const builtSpread = 0.07;
const hotMix = { builtSpread, quickOfDry: 0.22, slowOfDry: 0.27 } as const;
const restingMix = { builtSpread, quickOfDry: 0.02, slowOfDry: 0.12 } as const;
export const methodBalances: Readonly<Record<PileMethod, MethodBalance>> = {
  'static-cage': {
    ...hotMix,
    ...{ builtFraction: 0.68, builtSpread: 0.06, skinLossPerDay: 0.2, massKg: 900, bulkDensityKgPerM3: 470 },
  },
  'hot-bin': {
    ...hotMix,
    ...{ builtFraction: 0.58, skinLossPerDay: 0.17, massKg: 500, bulkDensityKgPerM3: 450 },
  },
  'turned-windrow': {
    ...hotMix,
    ...{ builtFraction: 0.57, skinLossPerDay: 0.08, massKg: 15_000, bulkDensityKgPerM3: 500 },
  },
  'aerated-static-pile': {
    ...hotMix,
    ...{ builtFraction: 0.58, skinLossPerDay: 0.1, massKg: 15_000, bulkDensityKgPerM3: 480 },
  },
  'worm-bed': {
    ...restingMix,
    ...{ builtFraction: 0.75, skinLossPerDay: 0.2, massKg: 300, bulkDensityKgPerM3: 620 },
  },
  'curing-heap': {
    ...restingMix,
    ...{ builtFraction: 0.5, skinLossPerDay: 0.1, massKg: 3000, bulkDensityKgPerM3: 590 },
  },
  'leaf-heap': {
    ...restingMix,
    ...{ builtFraction: 0.6, skinLossPerDay: 0.17, massKg: 500, slowOfDry: 0.25, bulkDensityKgPerM3: 280 },
  },
};

/** Somebody measured or reckoned the mix: nearer than the method's usual, not exact. */
const knownSpread = 0.04;

/** A method's figures with what is known of this pile in their place. */
export function balanceOf(method: PileMethod, build: PileBuild | null | undefined): MethodBalance {
  const usual = methodBalances[method];
  if (build == null) return usual;
  const { moistureFraction, wetKg, volumeM3 } = build;
  const massKg = wetKg ?? (volumeM3 === null ? usual.massKg : volumeM3 * usual.bulkDensityKgPerM3);
  return moistureFraction === null
    ? { ...usual, massKg }
    : { ...usual, massKg, builtFraction: moistureFraction, builtSpread: knownSpread };
}

/** Heat capacity as built (reference 5.2 at 60 % moisture). */
const megajoulesPerKgKelvin = 0.003;
/** However much the skin takes: warm wet matter always draws air (whole-pile balances say 60-90 %, recalled; ours). */
const leastShareInAir = 0.5;
/** Of the vapour, this much is lost for good; the rest drops in the cooler outer layers (ours). */
const shareLost = 0.82;
/** Nobody measures the humidity of the air that goes in: taken as this. */
const airHumidityFraction = 0.75;
/** Drying is believed within these multiples of the usual, four times in five. */
export const dryingBand = { slow: 0.6, fast: 1.4 } as const;
/** What holds no more runs off. */
const mostHeldFraction = 0.75;
const driestFraction = 0.05;
const probeSpread = 0.03;

/** The balance of a pile just built, or to which fresh material was added. */
export function freshBalance({ builtFraction, builtSpread: spread }: MethodBalance): PileBalance {
  return { dry: 1 - builtFraction, ...waterAround(builtFraction, spread, 1 - builtFraction) };
}

/** Some hours of a known core, and the days of work at the best warmth (`materialLeft.ts`) before and in them. */
export interface BalanceStep {
  readonly coreCelsius: number;
  readonly airCelsius: number;
  readonly hours: number;
  readonly workedBefore: number;
  readonly worked: number;
  /** How many times the usual heat this pile makes (`vigour.ts`). */
  readonly vigour: number;
}

/**
 * What an hour or more of a known core does. Heat comes from food used up and leaves again: what does not go through the
 * skin is carried off by air, most of it as vapour. So a rich mix, whose skin is no warmer than another's, dries fast. A
 * pile makes at least what its skin loses, or it would not be warm.
 */
export function stepBalance(balance: PileBalance, method: MethodBalance, step: BalanceStep): PileBalance {
  if (step.coreCelsius <= step.airCelsius) return balance;
  const throughSkin = lostKelvin(method, step) / kelvinPerKgBurnt;
  const burnt = Math.max(step.vigour * usualBurntKg(method, step), throughSkin);
  const inAir = Math.max(burnt - throughSkin, leastShareInAir * burnt);
  const megajoulesInAir = (inAir * defaultHeatJoulesPerKg) / 1e6;
  const vapour = waterEvaporatedKg(megajoulesInAir, vapourShare(step), latentHeat(step.coreCelsius));
  const dry = Math.max(0.02, balance.dry - burnt);
  const made = burnt * metabolicWaterKgPerKg;
  const lose = (water: number, multiple: number) => held(water + (made - vapour) * multiple, dry);
  return {
    dry,
    driest: lose(balance.driest, dryingBand.fast),
    middle: lose(balance.middle, 1),
    wettest: lose(balance.wettest, dryingBand.slow),
  };
}

const kelvinPerKgBurnt = defaultHeatJoulesPerKg / 1e6 / megajoulesPerKgKelvin;

/** What it loses through its skin in the step, as a fall in warmth. */
export function lostKelvin(
  method: MethodBalance,
  step: Pick<BalanceStep, 'coreCelsius' | 'airCelsius' | 'hours'>,
): number {
  return (method.skinLossPerDay * Math.max(0, step.coreCelsius - step.airCelsius) * step.hours) / 24;
}

/** What the food a usual mix uses up in the step would warm it by. */
export function usualKelvin(
  method: MethodBalance,
  step: Pick<BalanceStep, 'workedBefore' | 'worked'>,
): number {
  return usualBurntKg(method, step) * kelvinPerKgBurnt;
}

/** Food a usual mix uses up in the step, kg per kg of the pile as built. */
function usualBurntKg(
  method: MethodBalance,
  { workedBefore, worked }: Pick<BalanceStep, 'workedBefore' | 'worked'>,
): number {
  const used = (ratePerDay: number) =>
    remainingFraction(ratePerDay, workedBefore) - remainingFraction(ratePerDay, workedBefore + worked);
  const ofDry = method.quickOfDry * used(quickRatePerDay) + method.slowOfDry * used(slowRatePerDay);
  return ofDry * (1 - method.builtFraction);
}

/** Of the heat that leaves in air, the part that is water lost. */
function vapourShare(step: { readonly coreCelsius: number; readonly airCelsius: number }): number {
  const inlet = { celsius: step.airCelsius, relativeHumidityFraction: airHumidityFraction };
  const latent = exhaustLoad(Math.min(step.coreCelsius, 90), inlet).latentShareFraction;
  return shareLost * Math.min(1, Math.max(0, latent));
}

/** Less than this share of the pile's mass is a sprinkle; who gives more squeezed a handful first. */
const realWatering = 0.01;

/**
 * Water given, litres; null when nobody wrote down how much, then taken as 3 % of the pile. Who waters a pile looks at
 * it and stops when it is right, so afterwards it is believed to be at least as moist as `wantedFraction` (ours); how dry
 * it may be for all that, the band's dry side, comes from the litres alone.
 */
export function addWater(
  balance: PileBalance,
  method: MethodBalance,
  litres: number | null,
  wantedFraction: number,
): PileBalance {
  const given = litres === null ? 0.03 : litres / method.massKg;
  const add = (water: number) => held(water + given, balance.dry);
  const wanted = given < realWatering ? 0 : (wantedFraction / (1 - wantedFraction)) * balance.dry;
  const { driest, middle, wettest } = balance;
  const watered = Math.max(add(middle), wanted);
  return { ...balance, driest: add(driest), middle: watered, wettest: Math.max(add(wettest), watered) };
}

/** A moisture that somebody measured: the guess starts from there again. */
export function measuredBalance(balance: PileBalance, fraction: number): PileBalance {
  return { ...balance, ...waterAround(fraction, probeSpread, balance.dry) };
}

/** Wet-basis moisture with its 80 % band. */
export function moistureOfBalance({ driest, middle, wettest, dry }: PileBalance): Banded {
  const fraction = (water: number) => water / (water + dry);
  return { low: fraction(driest), middle: fraction(middle), high: fraction(wettest) };
}

function waterAround(fraction: number, spread: number, dry: number) {
  const water = (at: number) => {
    const within = Math.min(0.93, Math.max(driestFraction, at));
    return (within / (1 - within)) * dry;
  };
  return { driest: water(fraction - spread), middle: water(fraction), wettest: water(fraction + spread) };
}

function held(water: number, dry: number): number {
  const most = (mostHeldFraction / (1 - mostHeldFraction)) * dry;
  const least = (driestFraction / (1 - driestFraction)) * dry;
  return Math.min(most, Math.max(least, water));
}
