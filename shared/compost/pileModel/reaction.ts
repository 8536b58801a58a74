import { oxygenDiffusivity } from '../heat/diffusion.ts';
import { freeAirSpaceFactor, freshAirOxygenFraction, moistureFactor } from '../kinetics/limitingFactors.ts';
import { effectiveDiffusivityShare } from '../mix/freeAirSpace.ts';
import { channelAreaM2 } from './channels.ts';
import type { KineticParameters } from './parameters.ts';
import type { Site } from './site.ts';
import type { PileState } from './state.ts';
import { warmthFactor } from './warmth.ts';
import { edge, zoneCount } from './zones.ts';

const secondsPerDay = 86_400;
const gasConstant = 8.314462618;
/** kg oxygen per kg dry air and unit of mole fraction (ratio of molar masses, 31.998 / 28.966). */
const oxygenPerDryAir = 1.1047;
/** kg oxygen per m3 of pore air and unit of mole fraction, near 50 C. */
const oxygenPerPoreVolume = 1.1;
/** Distance from a channel's wall over which oxygen reaches in, metres (ours). */
const channelReachMetres = 0.08;
/** Per second, share of all organic matter oxidised without microbes (Arrhenius about 80 C; form standard). */
function chemicalRate(celsius: number, kinetics: KineticParameters): number {
  if (kinetics.chemicalRatePerDayAt80Celsius === 0 || celsius < 40) return 0;
  const lift = 1 / 353.15 - 1 / (celsius + 273.15);
  const factor = Math.exp((kinetics.chemicalActivationJoulesPerMole / gasConstant) * lift);
  return (kinetics.chemicalRatePerDayAt80Celsius / secondsPerDay) * factor;
}

/**
 * Oxygen left where supply meets demand, mole fraction: p (xs - x) = D n x / (K + x) solved for x.
 * @param supply kg/s per mole fraction. @param source mole fraction of what is supplied. @param demand kg/s in fresh air.
 */
export function oxygenLeft(supply: number, source: number, demand: number, halfSaturation: number): number {
  if (demand <= 0) return source;
  if (supply <= 0) return 0;
  const scaled = (demand * (halfSaturation + freshAirOxygenFraction)) / freshAirOxygenFraction;
  const middle = supply * (halfSaturation - source) + scaled;
  const root = Math.sqrt(middle * middle + 4 * supply * supply * source * halfSaturation);
  // Two forms of the same root: the one that adds like signs keeps its digits.
  const left =
    middle > 0 ? (2 * supply * source * halfSaturation) / (middle + root) : (root - middle) / (2 * supply);
  return Math.min(source, left);
}

/** kg/s of oxygen per unit of mole fraction that reaches a zone by diffusion from the outside and its channels. */
function diffusiveSupply(state: PileState, site: Site, zone: number, scale: number): number {
  const { geometry, scratch } = site;
  const effective =
    effectiveDiffusivityShare(scratch.poreFraction[zone]!) * oxygenDiffusivity(state.celsius[zone]!);
  const fromOutside =
    (geometry.outerFaceM2[zone]! * scale ** (geometry.figures.dimensions - 2)) / geometry.depthMetres[zone]!;
  const fromChannels = channelAreaM2(state, site, zone) / channelReachMetres;
  return oxygenPerPoreVolume * effective * (fromOutside + fromChannels);
}

/**
 * Works out how fast each zone's pools go now, from the outside in because inner zones breathe what the outer ones
 * leave. Oxygen is taken as settled at once: it evens out in minutes, the rest of the pile in hours.
 * @param scale present length over built length.
 */
export function readReaction(state: PileState, site: Site, scale: number): void {
  const { scratch, parameters } = site;
  const { kinetics, material, air } = parameters;
  let outer = freshAirOxygenFraction;
  for (let zone = zoneCount - 1; zone >= 0; zone -= 1) {
    const celsius = state.celsius[zone]!;
    const readiness =
      warmthFactor(celsius, kinetics) *
      state.activityFraction[zone]! *
      moistureFactor(scratch.moistureFraction[zone]!) *
      freeAirSpaceFactor(scratch.poreFraction[zone]!);
    const fast = ((material.fastRatePerDay * readiness) / secondsPerDay) * state.fastKg[zone]!;
    const slow = ((material.slowRatePerDay * readiness) / secondsPerDay) * state.slowKg[zone]!;
    const organic = state.fastKg[zone]! + state.slowKg[zone]! + state.lastingKg[zone]!;
    const chemical = chemicalRate(celsius, kinetics) * organic;
    const blown = oxygenPerDryAir * scratch.throughAir[zone]!;
    const diffused = diffusiveSupply(state, site, zone, scale);
    const drawn = zone === edge ? freshAirOxygenFraction : freshMix(air.freshInletFraction, outer);
    const supply = blown + diffused;
    const source = supply > 0 ? (blown * drawn + diffused * freshAirOxygenFraction) / supply : 0;
    const half = kinetics.oxygenHalfSaturationFraction;
    const left = oxygenLeft(supply, source, kinetics.oxygenKgPerKg * (fast + slow + chemical), half);
    const breath = (left / (half + left)) * ((half + freshAirOxygenFraction) / freshAirOxygenFraction);
    state.oxygenFraction[zone] = left;
    scratch.fastRate[zone] = fast * breath;
    scratch.slowRate[zone] = slow * breath;
    scratch.chemicalRate[zone] = chemical * breath;
    outer = left;
  }
}

function freshMix(freshFraction: number, outer: number): number {
  return freshFraction * freshAirOxygenFraction + (1 - freshFraction) * outer;
}
