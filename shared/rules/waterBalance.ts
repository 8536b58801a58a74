import type { Banded } from '../compost/forecast/banded.ts';
import { exhaustLoad, metabolicWaterKgPerKg, waterEvaporatedKg } from '../compost/heat/evaporation.ts';
import { defaultHeatJoulesPerKg } from '../compost/kinetics/heatRelease.ts';
import { latentHeat } from '../compost/psychrometrics.ts';
import type { PileMethod } from '../yard/method.ts';

/**
 * Heat and water of a pile without a moisture probe, from its core and the air alone, kg per kg of the pile as built.
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

/** What most piles of a method are like. */
export interface MethodBalance {
  /** Wet-basis moisture as built and how far it is usually off. */
  readonly builtFraction: number;
  readonly builtSpread: number;
  /** Share of its warmth over the air a pile loses in a day: small piles more (a cage of 1.8 m3 gives off some 350 W). */
  readonly lossPerDay: number;
  /** Mass as built, kg: turns litres into moisture. */
  readonly massKg: number;
}

const builtSpread = 0.07;
export const methodBalances: Readonly<Record<PileMethod, MethodBalance>> = {
  'static-cage': { builtFraction: 0.68, builtSpread: 0.06, lossPerDay: 0.3, massKg: 900 },
  'hot-bin': { builtFraction: 0.58, builtSpread, lossPerDay: 0.25, massKg: 500 },
  'turned-windrow': { builtFraction: 0.57, builtSpread, lossPerDay: 0.12, massKg: 15_000 },
  'aerated-static-pile': { builtFraction: 0.58, builtSpread, lossPerDay: 0.15, massKg: 15_000 },
  'worm-bed': { builtFraction: 0.75, builtSpread, lossPerDay: 0.3, massKg: 300 },
  'curing-heap': { builtFraction: 0.5, builtSpread, lossPerDay: 0.15, massKg: 3000 },
  'leaf-heap': { builtFraction: 0.6, builtSpread, lossPerDay: 0.25, massKg: 500 },
};

/** Heat capacity as built (reference 5.2 at 60 % moisture). */
const megajoulesPerKgKelvin = 0.003;
/** Of the heat, 80 % leaves in moving air (reference 5: "17.5 MJ with 80 % leaving in air"); the rest through the skin. */
const shareInAir = 0.8;
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

/** What an hour or more of a known core does: its warmth over the air is heat lost, most of it as vapour. */
export function stepBalance(
  balance: PileBalance,
  method: MethodBalance,
  step: { readonly coreCelsius: number; readonly airCelsius: number; readonly hours: number },
): PileBalance {
  const above = step.coreCelsius - step.airCelsius;
  if (above <= 0) return balance;
  const kelvin = (method.lossPerDay * above * step.hours) / 24;
  const megajoules = kelvin * megajoulesPerKgKelvin;
  const burnt = (megajoules * 1e6) / defaultHeatJoulesPerKg;
  const vapour = waterEvaporatedKg(megajoules, vapourShare(step), latentHeat(step.coreCelsius));
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

function vapourShare(step: { readonly coreCelsius: number; readonly airCelsius: number }): number {
  const inlet = { celsius: step.airCelsius, relativeHumidityFraction: airHumidityFraction };
  const latent = exhaustLoad(Math.min(step.coreCelsius, 90), inlet).latentShareFraction;
  return shareInAir * Math.min(1, Math.max(0, latent));
}

/** Water given, litres; null when nobody wrote down how much, then taken as 3 % of the pile. */
export function addWater(balance: PileBalance, method: MethodBalance, litres: number | null): PileBalance {
  const given = litres === null ? 0.03 : litres / method.massKg;
  const add = (water: number) => held(water + given, balance.dry);
  const { driest, middle, wettest } = balance;
  return { ...balance, driest: add(driest), middle: add(middle), wettest: add(wettest) };
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
