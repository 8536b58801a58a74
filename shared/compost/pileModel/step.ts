import { drySolidsSpecificHeat, waterSpecificHeat } from '../heat/specificHeat.ts';
import { moistureFactor } from '../kinetics/limitingFactors.ts';
import { humidityRatio, moistAirDensity } from '../psychrometrics.ts';
import { readAirflow } from './airflow.ts';
import { airEnthalpyJoules, readCondition } from './condition.ts';
import {
  exchangeBetweenZones,
  exchangeRainAndDrain,
  exchangeWithChannels,
  exchangeWithDraught,
  exchangeWithSurroundings,
  type OutsideAir,
} from './fluxes.ts';
import type { PileParameters } from './parameters.ts';
import { readReaction } from './reaction.ts';
import { prepareSite, type Site } from './site.ts';
import { copyState, heatCapacity, ledgerNames, type PileState, volumeM3 } from './state.ts';
import type { Weather } from './weather.ts';
import { zoneCount } from './zones.ts';

const secondsPerDay = 86_400;
/** Longest internal step. Shells answer in hours, so ten minutes is fine-grained; thin or windy ones shorten it. */
export const longestStepSeconds = 600;
/** A step may use up at most this share of a zone's own response time or of its water. */
const stepShare = 0.25;
/** Spores and cool pockets keep a pile from ever being without microbes. */
const fewestMicrobes = 0.01;
const organicSpecificHeat = drySolidsSpecificHeat(0);

function outsideAir(weather: Weather): OutsideAir {
  const ratio = humidityRatio(
    weather.airCelsius,
    Math.min(1, Math.max(0.01, weather.relativeHumidityFraction)),
  );
  return { weather, humidityRatio: ratio, enthalpyJoules: airEnthalpyJoules(weather.airCelsius, ratio) };
}

function clearRates(site: Site): void {
  site.scratch.power.fill(0);
  site.scratch.waterGain.fill(0);
  site.scratch.stiffness.fill(0);
  for (const name of ledgerNames) site.rates[name] = 0;
}

/** Works out every rate of the pile as it stands, without changing it. */
function readRates(state: PileState, site: Site, outside: OutsideAir): void {
  const { figures } = site.geometry;
  clearRates(site);
  readCondition(state, site);
  const scale = (volumeM3(state, site.parameters) / figures.volumeM3) ** (1 / figures.dimensions);
  const plan = figures.topAreaM2 * scale ** (figures.dimensions - 1);
  readAirflow(state, site, plan, moistAirDensity(outside.weather.airCelsius, outside.humidityRatio));
  readReaction(state, site, scale);
  exchangeBetweenZones(state, site, scale);
  exchangeWithDraught(state, site, outside);
  exchangeWithSurroundings(state, site, outside, scale);
  exchangeWithChannels(state, site, outside);
  exchangeRainAndDrain(state, site, outside);
}

/** Longest step that stays calm and leaves water in every zone. */
function safeStep(state: PileState, site: Site): number {
  let step = longestStepSeconds;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const response = heatCapacity(state, zone) / site.scratch.stiffness[zone]!;
    const drying = -state.waterKg[zone]! / Math.min(-1e-12, site.scratch.waterGain[zone]!);
    step = Math.min(step, stepShare * response, stepShare * drying);
  }
  return Math.max(1, step);
}

/** Burns solids: makes heat and water, and the warmth of what turned to gas leaves with it. */
function oxidise(state: PileState, site: Site, zone: number, dt: number): void {
  const { scratch, parameters } = site;
  const { ledger } = state;
  const before = state.fastKg[zone]! + state.slowKg[zone]! + state.lastingKg[zone]!;
  const kept = 1 - (scratch.chemicalRate[zone]! * dt) / before;
  state.fastKg[zone] = (state.fastKg[zone]! - scratch.fastRate[zone]! * dt) * kept;
  state.slowKg[zone] = (state.slowKg[zone]! - scratch.slowRate[zone]! * dt) * kept;
  state.lastingKg[zone]! *= kept;
  const burnt = before - (state.fastKg[zone]! + state.slowKg[zone]! + state.lastingKg[zone]!);
  const { heatJoulesPerKg, waterKgPerKg } = parameters.kinetics;
  const gasWarmth = (organicSpecificHeat - waterKgPerKg * waterSpecificHeat) * state.celsius[zone]!;
  state.waterKg[zone]! += burnt * waterKgPerKg;
  state.energyJoules[zone]! += burnt * (heatJoulesPerKg - gasWarmth);
  ledger.oxidisedKg += burnt;
  ledger.madeWaterKg += burnt * waterKgPerKg;
  ledger.heatReleased += burnt * heatJoulesPerKg;
  ledger.carriedByGas += burnt * gasWarmth;
}

/** Microbes multiply with warmth and water until the pile carries all it can, and die back where it is too hot. */
function growMicrobes(state: PileState, site: Site, zone: number, dt: number): void {
  const warmth = Math.min(1, Math.max(0, state.celsius[zone]! / 30));
  const wetness = moistureFactor(site.scratch.moistureFraction[zone]!);
  const active = state.activityFraction[zone]!;
  const { growthPerDay, dieOffPerDayAt66Celsius } = site.parameters.kinetics;
  const dying = dieOffPerDayAt66Celsius * 2 ** ((state.celsius[zone]! - 66) / 3);
  const perDay = (growthPerDay * warmth * wetness * (1 - active) - dying) * active;
  const next = active + (perDay * dt) / secondsPerDay;
  state.activityFraction[zone] = Math.min(1, Math.max(fewestMicrobes, next));
}

/** Applies the rates for `dt` seconds. */
function apply(state: PileState, site: Site, dt: number): void {
  const { scratch, rates } = site;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    oxidise(state, site, zone, dt);
    growMicrobes(state, site, zone, dt);
    state.waterKg[zone]! += scratch.waterGain[zone]! * dt;
    state.energyJoules[zone]! += scratch.power[zone]! * dt;
    state.celsius[zone] = state.energyJoules[zone]! / heatCapacity(state, zone);
  }
  for (const name of ledgerNames) state.ledger[name] += rates[name] * dt;
  const { compactionDays } = site.parameters.settling;
  state.compactionProgress += ((1 - state.compactionProgress) * dt) / (compactionDays * secondsPerDay);
  state.elapsedSeconds += dt;
}

function noteRates(state: PileState, site: Site): void {
  const { scratch, rates, parameters } = site;
  state.heatWatts = 0;
  state.airKgPerSecond = 0;
  state.vapourKgPerSecond = rates.vapourKg;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const burning = scratch.fastRate[zone]! + scratch.slowRate[zone]! + scratch.chemicalRate[zone]!;
    state.heatWatts += burning * parameters.kinetics.heatJoulesPerKg;
    state.airKgPerSecond += scratch.columnAir[zone]!;
  }
}

/**
 * Moves a state on by `seconds` IN PLACE, in as many internal steps as calm needs. For loops over a year; everyone
 * else uses {@link stepPile}.
 */
export function advance(state: PileState, site: Site, weather: Weather, seconds: number): void {
  const outside = outsideAir(weather);
  let left = seconds;
  while (left > 0) {
    readRates(state, site, outside);
    const dt = Math.min(left, safeStep(state, site));
    apply(state, site, dt);
    left -= dt;
  }
  noteRates(state, site);
}

/**
 * The pile `dtSeconds` later under weather that holds for that time; the state given is left as it was.
 * Pure and deterministic. Split long times where the weather changes.
 */
export function stepPile(
  state: PileState,
  parameters: PileParameters,
  weather: Weather,
  dtSeconds: number,
): PileState {
  const next = copyState(state);
  advance(next, prepareSite(parameters), weather, dtSeconds);
  return next;
}
