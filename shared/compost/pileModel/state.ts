import { requireBetween, requirePositive } from '../allowed.ts';
import { drySolidsSpecificHeat, waterSpecificHeat } from '../heat/specificHeat.ts';
import type { MaterialParameters, PileParameters } from './parameters.ts';
import { shapeFigures } from './shape.ts';
import { zoneCount, zoneGeometry } from './zones.ts';

/** Sums since the pile was built. Energy in joules with liquid water and solids at 0 C as zero; masses in kg. */
export interface Ledger {
  heatReleased: number;
  /** Warmth of the solids burnt off less that of the water they became. */
  carriedByGas: number;
  /** Enthalpy of air and vapour leaving through the matrix, less that of air coming in. */
  lostWithAir: number;
  lostThroughSurface: number;
  lostToGround: number;
  lostToChannels: number;
  lostByTurning: number;
  /** Warmth of water, rain and material put in, less that of what drained away. */
  broughtByWater: number;
  oxidisedKg: number;
  madeWaterKg: number;
  vapourKg: number;
  addedWaterKg: number;
  drainedKg: number;
  addedDryKg: number;
}

/** Every sum of the ledger, for code that treats them alike. */
export const ledgerNames = [
  'heatReleased',
  'carriedByGas',
  'lostWithAir',
  'lostThroughSurface',
  'lostToGround',
  'lostToChannels',
  'lostByTurning',
  'broughtByWater',
  'oxidisedKg',
  'madeWaterKg',
  'vapourKg',
  'addedWaterKg',
  'drainedKg',
  'addedDryKg',
] as const satisfies readonly (keyof Ledger)[];

/** A pile at one moment. Arrays run core, shoulder, edge. Masses in kg, energy in joules. */
export interface PileState {
  elapsedSeconds: number;
  fastKg: Float64Array;
  slowKg: Float64Array;
  /** Organic matter microbes leave alone. */
  lastingKg: Float64Array;
  ashKg: Float64Array;
  waterKg: Float64Array;
  energyJoules: Float64Array;
  /** Microbes at work, share of what the pile can carry. */
  activityFraction: Float64Array;
  celsius: Float64Array;
  oxygenFraction: Float64Array;
  /** Volume it would have at its present solids, uncompacted and undecayed. */
  builtVolumeM3: number;
  builtDryKg: number;
  compactionProgress: number;
  channelsPulled: boolean;
  openUntilSeconds: number;
  /** Rates at the end of the last step: watts, kg dry air per second, kg water per second. */
  heatWatts: number;
  airKgPerSecond: number;
  vapourKgPerSecond: number;
  ledger: Ledger;
}

/** @throws RangeError naming the first figure of a material that no compost can have. */
export function checkMaterial(material: MaterialParameters): void {
  requirePositive('bulkDensityKgPerM3', material.bulkDensityKgPerM3);
  for (const name of [
    'ashFraction',
    'degradableFraction',
    'fastShareFraction',
    'inoculumFraction',
  ] as const) {
    requireBetween(name, material[name], 0, 1);
  }
  requireBetween('moistureFraction', material.moistureFraction, 0.01, 0.95);
  requireBetween('startCelsius', material.startCelsius, -30, 95);
}

/** A ledger with every sum at zero. */
export function emptyLedger(): Ledger {
  return {
    heatReleased: 0,
    carriedByGas: 0,
    lostWithAir: 0,
    lostThroughSurface: 0,
    lostToGround: 0,
    lostToChannels: 0,
    lostByTurning: 0,
    broughtByWater: 0,
    oxidisedKg: 0,
    madeWaterKg: 0,
    vapourKg: 0,
    addedWaterKg: 0,
    drainedKg: 0,
    addedDryKg: 0,
  };
}

/** Dry matter of one zone, kg. */
export function dryKg(state: PileState, zone: number): number {
  return state.fastKg[zone]! + state.slowKg[zone]! + state.lastingKg[zone]! + state.ashKg[zone]!;
}

/** Heat capacity of one zone, J/K. */
export function heatCapacity(state: PileState, zone: number): number {
  const dry = dryKg(state, zone);
  return dry * drySolidsSpecificHeat(state.ashKg[zone]! / dry) + state.waterKg[zone]! * waterSpecificHeat;
}

/** Wet-basis moisture of one zone, 0..1. */
export function moistureOf(state: PileState, zone: number): number {
  return state.waterKg[zone]! / (state.waterKg[zone]! + dryKg(state, zone));
}

/** Sum over the zones. */
export function total(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

/** Dry matter of the whole pile, kg. */
export function totalDryKg(state: PileState): number {
  let sum = 0;
  for (let zone = 0; zone < zoneCount; zone += 1) sum += dryKg(state, zone);
  return sum;
}

/** Present volume, m3: shrinks with the dry matter lost and with compaction under its own weight. */
export function volumeM3(state: PileState, parameters: PileParameters): number {
  const compacted = 1 - parameters.settling.compactionFraction * state.compactionProgress;
  return state.builtVolumeM3 * (totalDryKg(state) / state.builtDryKg) * compacted;
}

/**
 * A freshly built pile.
 * @throws RangeError when a parameter is outside what compost can be.
 */
export function createPileState(parameters: PileParameters): PileState {
  const { material } = parameters;
  checkMaterial(material);
  const figures = shapeFigures(parameters.shape);
  const share = zoneGeometry(figures).volumeShare;
  const wet = figures.volumeM3 * material.bulkDensityKgPerM3;
  const dry = wet * (1 - material.moistureFraction);
  const organic = dry * (1 - material.ashFraction);
  const degradable = organic * material.degradableFraction;
  const spread = (kg: number) => share.map((part) => part * kg);
  const state: PileState = {
    elapsedSeconds: 0,
    fastKg: spread(degradable * material.fastShareFraction),
    slowKg: spread(degradable * (1 - material.fastShareFraction)),
    lastingKg: spread(organic - degradable),
    ashKg: spread(dry * material.ashFraction),
    waterKg: spread(wet * material.moistureFraction),
    energyJoules: new Float64Array(zoneCount),
    activityFraction: new Float64Array(zoneCount).fill(material.inoculumFraction),
    celsius: new Float64Array(zoneCount).fill(material.startCelsius),
    oxygenFraction: new Float64Array(zoneCount).fill(0.21),
    builtVolumeM3: figures.volumeM3,
    builtDryKg: dry,
    compactionProgress: 0,
    channelsPulled: false,
    openUntilSeconds: -1,
    heatWatts: 0,
    airKgPerSecond: 0,
    vapourKgPerSecond: 0,
    ledger: emptyLedger(),
  };
  for (let zone = 0; zone < zoneCount; zone += 1) {
    state.energyJoules[zone] = heatCapacity(state, zone) * material.startCelsius;
  }
  return state;
}

/** A copy that shares nothing with the original. */
export function copyState(state: PileState): PileState {
  return {
    ...state,
    fastKg: state.fastKg.slice(),
    slowKg: state.slowKg.slice(),
    lastingKg: state.lastingKg.slice(),
    ashKg: state.ashKg.slice(),
    waterKg: state.waterKg.slice(),
    energyJoules: state.energyJoules.slice(),
    activityFraction: state.activityFraction.slice(),
    celsius: state.celsius.slice(),
    oxygenFraction: state.oxygenFraction.slice(),
    ledger: { ...state.ledger },
  };
}
