import {
  humidityRatio,
  latentHeat,
  moistAirEnthalpy,
  saturatedAirEnthalpy,
  saturationHumidityRatio,
} from '../psychrometrics.ts';

/** Air as it comes into the pile. */
export interface InletAir {
  readonly celsius: number;
  readonly relativeHumidityFraction: number;
}

/** What a kilogram of dry air carries off when it leaves saturated. */
export interface ExhaustLoad {
  readonly waterKg: number;
  readonly enthalpyKilojoules: number;
  /** Part of the enthalpy rise that is latent, 0..1. */
  readonly latentShareFraction: number;
}

/**
 * Water and heat carried by saturated exhaust, per kg dry air (psychrometrics; computed). The latent part is the water
 * gained times its heat of vaporisation at the exhaust temperature.
 */
export function exhaustLoad(exhaustCelsius: number, inlet: InletAir): ExhaustLoad {
  const inletRatio = humidityRatio(inlet.celsius, inlet.relativeHumidityFraction);
  const waterKg = saturationHumidityRatio(exhaustCelsius) - inletRatio;
  const enthalpyKilojoules =
    saturatedAirEnthalpy(exhaustCelsius) - moistAirEnthalpy(inlet.celsius, inletRatio);
  const sensible =
    1.006 * (exhaustCelsius - inlet.celsius) + inletRatio * 1.86 * (exhaustCelsius - inlet.celsius);
  return { waterKg, enthalpyKilojoules, latentShareFraction: 1 - sensible / enthalpyKilojoules };
}

/** Water evaporated by an amount of heat, kg: Q x share / latent heat. */
export function waterEvaporatedKg(
  heatMegajoules: number,
  evaporativeShareFraction: number,
  latentHeatMegajoulesPerKg: number = latentHeat(55),
): number {
  return (heatMegajoules * evaporativeShareFraction) / latentHeatMegajoulesPerKg;
}

/** A heap before and after: wet mass, moisture and ash at the start, what was lost and the moisture it ends at. */
export interface DryingCase {
  readonly wetMassKg: number;
  readonly moistureFraction: number;
  readonly ashFraction: number;
  /** Share of the volatile solids lost. */
  readonly volatileLossFraction: number;
  readonly finalMoistureFraction: number;
}

/** End mass and net water lost (evaporated less made), kg. */
export function dryingBalance(heap: DryingCase): {
  finalMassKg: number;
  netWaterKg: number;
  volatileLossKg: number;
} {
  const dry = heap.wetMassKg * (1 - heap.moistureFraction);
  const volatileLossKg = dry * (1 - heap.ashFraction) * heap.volatileLossFraction;
  const finalMassKg = (dry - volatileLossKg) / (1 - heap.finalMoistureFraction);
  const netWaterKg = heap.wetMassKg * heap.moistureFraction - finalMassKg * heap.finalMoistureFraction;
  return { finalMassKg, netWaterKg, volatileLossKg };
}

/** Water made by oxidation, kg per kg biodegradable solids: practical default for plant matter (0.50-0.60; computed). */
export const metabolicWaterKgPerKg = 0.54;
