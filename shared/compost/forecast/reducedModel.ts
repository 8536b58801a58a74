/**
 * The pile as one lump: the core's temperature, the heat still in it and how readily it is made and lost. Few enough
 * numbers to be learnt from one probe. "Kelvin" of heat means what the lump would warm if none were lost.
 */

import { metabolicWaterKgPerKg } from '../heat/evaporation.ts';
import { defaultHeatJoulesPerKg } from '../kinetics/heatRelease.ts';
import { moistureFactor } from '../kinetics/limitingFactors.ts';
import type { CardinalTemperatures } from '../kinetics/temperatureFactor.ts';
import { warmthFactor } from '../pileModel/warmth.ts';
import { latentHeat, saturatedAirEnthalpy } from '../psychrometrics.ts';

/** Places in the state vector. Those marked ln are natural logarithms, so stay positive. */
export const at = {
  celsius: 0,
  /** ln of heat left in quick material, kelvin. */
  fastHeat: 1,
  /** ln of heat left in slow material, kelvin. */
  slowHeat: 2,
  /** ln of the quick rate at its best, per day; the slow rate is a fixed part of it. */
  rate: 3,
  /** ln of the loss coefficient, per day. */
  loss: 4,
  /** Log-odds of the share of microbes at work. */
  lag: 5,
  /** Temperature at which this pile's microbes stop, Celsius. */
  limit: 6,
  /** Water left, kg per kg of the pile as built. */
  water: 7,
  /** Dry matter left, kg per kg of the pile as built. */
  dry: 8,
  /** ln of the share of the heat that leaves as vapour. */
  evaporation: 9,
  /** ln of the most heat the air let in can feed, kelvin a day. */
  supply: 10,
} as const;
export const stateLength = 11;

/** Slow pool's rate as a share of the quick one's (reference 4.3: order of a tenth; a quarter fits the pile model best). */
const slowRateShare = 0.25;
/** Heat capacity of the mass as built, J/(kg K): reference 5.2 at 60 % moisture. */
export const heatCapacityJoulesPerKg = 3000;
const leastWater = 0.01;
/**
 * Weight of moist-air enthalpy (kJ/kg) beside plain temperature in the loss, where the core is 40 C above the air: half
 * of the loss is vapour there. Draught grows with the difference, so the vapour part falls away faster than it.
 */
const vapourWeight = 0.12;
const fullDraughtKelvin = 40;
const gapToOptimum = 13;
const growthPerDay = 3;
/** A hot pile settles and its pores close: it loses this share less each day. Ours. */
const settlingPerDay = 0.01;
const mostLogOdds = 5;

/** Enthalpy of saturated air, kJ/kg, held to temperatures where it is defined. */
function heldEnthalpy(celsius: number): number {
  return saturatedAirEnthalpy(Math.min(90, Math.max(-40, celsius)));
}

/**
 * Loss drive, kelvin: temperature difference plus what the draught of warm, moist air carries beyond it.
 * @param airEnthalpy of the air around, kJ per kg dry air.
 */
function lossDrive(celsius: number, airCelsius: number, airEnthalpy: number): number {
  const above = celsius - airCelsius;
  if (above <= 0) return above;
  return above + vapourWeight * (above / fullDraughtKelvin) * (heldEnthalpy(celsius) - airEnthalpy);
}

function warmth(celsius: number, cardinal: CardinalTemperatures): number {
  return warmthFactor(celsius, { response: { kind: 'ctmi', cardinal }, mesophilicShareFraction: 0.4 });
}

/** Wet-basis moisture of a state, 0..1. */
export function moistureOf(state: Float64Array): number {
  const water = Math.max(leastWater, state[at.water]!);
  return water / (water + Math.max(leastWater, state[at.dry]!));
}

/** Takes the water and solids a stretch of heat costs. */
function spend(state: Float64Array, madeKelvin: number): void {
  const joules = madeKelvin * heatCapacityJoulesPerKg;
  const burnt = joules / defaultHeatJoulesPerKg;
  const share = Math.min(0.95, Math.exp(state[at.evaporation]!));
  const vapour = (share * joules) / (latentHeat(state[at.celsius]!) * 1e6);
  state[at.dry] = Math.max(leastWater, state[at.dry]! - burnt);
  state[at.water] = Math.max(leastWater, state[at.water]! + burnt * metabolicWaterKgPerKg - vapour);
}

/** Heat made now, kelvin a day, of the quick and the slow material. */
export function heatMade(state: Float64Array): { fast: number; slow: number } {
  const celsius = state[at.celsius]!;
  const limit = Math.min(95, Math.max(55, state[at.limit]!));
  const cardinal = { minimumCelsius: 5, optimumCelsius: limit - gapToOptimum, maximumCelsius: limit };
  const active = 1 / (1 + Math.exp(-state[at.lag]!));
  const perDay =
    Math.exp(state[at.rate]!) * active * warmth(celsius, cardinal) * moistureFactor(moistureOf(state));
  const fast = perDay * Math.exp(state[at.fastHeat]!);
  const slow = perDay * slowRateShare * Math.exp(state[at.slowHeat]!);
  const supply = Math.exp(state[at.supply]!);
  const fed = supply / (supply + fast + slow);
  return { fast: fast * fed, slow: slow * fed };
}

/** Moves a state on by `days` IN PLACE. Returns the heat made meanwhile, kelvin. */
export function advanceReduced(state: Float64Array, airCelsius: number, days: number): number {
  const steps = Math.max(1, Math.ceil(days * 24 - 1e-9));
  const step = days / steps;
  const airEnthalpy = heldEnthalpy(airCelsius);
  let made = 0;
  for (let count = 0; count < steps; count += 1) {
    const { fast, slow } = heatMade(state);
    const celsius = state[at.celsius]!;
    const lost = Math.exp(state[at.loss]!) * lossDrive(celsius, airCelsius, airEnthalpy);
    const limit = state[at.limit]!;
    state[at.celsius] = Math.min(limit + 5, Math.max(airCelsius - 15, celsius + (fast + slow - lost) * step));
    state[at.fastHeat]! -= (fast / Math.exp(state[at.fastHeat]!)) * step;
    state[at.slowHeat]! -= (slow / Math.exp(state[at.slowHeat]!)) * step;
    if (celsius > airCelsius + 20) state[at.loss]! -= settlingPerDay * step;
    const growth = growthPerDay * Math.min(1, Math.max(0, celsius / 30));
    state[at.lag] = Math.min(mostLogOdds, state[at.lag]! + growth * step);
    spend(state, (fast + slow) * step);
    made += (fast + slow) * step;
  }
  return made;
}
