import { waterSpecificHeat } from '../heat/specificHeat.ts';
import { vapourEnthalpyJoules } from './condition.ts';
import type { MaterialParameters, PileParameters } from './parameters.ts';
import { shapeFigures } from './shape.ts';
import { checkMaterial, copyState, heatCapacity, type PileState, total } from './state.ts';
import type { Weather } from './weather.ts';
import { zoneCount, zoneGeometry } from './zones.ts';

/** What a person does to a pile at a time counted from building. */
export type Intervention = { readonly atSeconds: number } & (
  | { readonly kind: 'water'; readonly litres: number; readonly celsius: number }
  | { readonly kind: 'turn' }
  | { readonly kind: 'open'; readonly hours: number }
  | { readonly kind: 'pull-channels' }
  | { readonly kind: 'add'; readonly wetKg: number; readonly material: MaterialParameters }
);

/** Share of its warmth above the air a pile gives up when it is turned: a dip of 5-15 K (reference 7.1). Ours. */
const turningLossFraction = 0.2;
/** Part of that which leaves as vapour. Ours. */
const turningVapourFraction = 0.5;
/** Compaction a turned pile keeps. Ours. */
const compactionKeptByTurning = 0.4;

/** Water sprinkled over the whole pile, shared by the dry matter each zone holds. */
function water(state: PileState, parameters: PileParameters, litres: number, celsius: number): void {
  const share = zoneGeometry(shapeFigures(parameters.shape)).volumeShare;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    state.waterKg[zone]! += litres * share[zone]!;
    state.energyJoules[zone]! += litres * share[zone]! * waterSpecificHeat * celsius;
  }
  state.ledger.addedWaterKg += litres;
  state.ledger.broughtByWater += litres * waterSpecificHeat * celsius;
}

function level(values: Float64Array, share: Float64Array): void {
  const sum = total(values);
  for (let zone = 0; zone < zoneCount; zone += 1) values[zone] = sum * share[zone]!;
}

/** Mixes the zones into one, lets warmth and vapour out and loosens what had packed down. */
function turn(state: PileState, parameters: PileParameters, weather: Weather): void {
  const share = zoneGeometry(shapeFigures(parameters.shape)).volumeShare;
  for (const values of [
    state.fastKg,
    state.slowKg,
    state.lastingKg,
    state.ashKg,
    state.waterKg,
    state.energyJoules,
  ]) {
    level(values, share);
  }
  const active = state.activityFraction.reduce((sum, value, zone) => sum + value * share[zone]!, 0);
  state.activityFraction.fill(active);
  let capacity = 0;
  for (let zone = 0; zone < zoneCount; zone += 1) capacity += heatCapacity(state, zone);
  const celsius = total(state.energyJoules) / capacity;
  const lost = Math.max(0, turningLossFraction * capacity * (celsius - weather.airCelsius));
  const vapour = Math.min(
    0.05 * total(state.waterKg),
    (lost * turningVapourFraction) / vapourEnthalpyJoules(celsius),
  );
  for (let zone = 0; zone < zoneCount; zone += 1) {
    state.energyJoules[zone]! -= lost * share[zone]!;
    state.waterKg[zone]! -= vapour * share[zone]!;
  }
  state.ledger.lostByTurning += lost;
  state.ledger.vapourKg += vapour;
  state.compactionProgress *= compactionKeptByTurning;
  state.oxygenFraction.fill(0.21);
}

/** Fresh material spread through the pile. */
function add(
  state: PileState,
  parameters: PileParameters,
  wetKg: number,
  material: MaterialParameters,
): void {
  checkMaterial(material);
  const share = zoneGeometry(shapeFigures(parameters.shape)).volumeShare;
  const dry = wetKg * (1 - material.moistureFraction);
  const organic = dry * (1 - material.ashFraction);
  const degradable = organic * material.degradableFraction;
  const before = total(state.energyJoules);
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const part = share[zone]!;
    const held = heatCapacity(state, zone);
    state.fastKg[zone]! += part * degradable * material.fastShareFraction;
    state.slowKg[zone]! += part * degradable * (1 - material.fastShareFraction);
    state.lastingKg[zone]! += part * (organic - degradable);
    state.ashKg[zone]! += part * dry * material.ashFraction;
    state.waterKg[zone]! += part * wetKg * material.moistureFraction;
    state.energyJoules[zone]! += (heatCapacity(state, zone) - held) * material.startCelsius;
  }
  state.builtVolumeM3 += wetKg / material.bulkDensityKgPerM3;
  state.builtDryKg += dry;
  state.ledger.addedDryKg += dry;
  state.ledger.addedWaterKg += wetKg - dry;
  state.ledger.broughtByWater += total(state.energyJoules) - before;
}

/** Applies one intervention IN PLACE; see {@link intervene} for the pure form. */
export function applyIntervention(
  state: PileState,
  parameters: PileParameters,
  action: Intervention,
  weather: Weather,
): void {
  if (action.kind === 'water') water(state, parameters, action.litres, action.celsius);
  else if (action.kind === 'turn') turn(state, parameters, weather);
  else if (action.kind === 'open') state.openUntilSeconds = state.elapsedSeconds + action.hours * 3600;
  else if (action.kind === 'pull-channels') state.channelsPulled = true;
  else add(state, parameters, action.wetKg, action.material);
  for (let zone = 0; zone < zoneCount; zone += 1) {
    state.celsius[zone] = state.energyJoules[zone]! / heatCapacity(state, zone);
  }
}

/** The pile after an intervention; the state given is left as it was. */
export function intervene(
  state: PileState,
  parameters: PileParameters,
  action: Intervention,
  weather: Weather,
): PileState {
  const next = copyState(state);
  applyIntervention(next, parameters, action, weather);
  return next;
}
