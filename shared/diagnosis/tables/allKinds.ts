import type { ObservationKind } from '../kind.ts';
import { age, carbonToNitrogen, degradableLeft, freeAirSpace, heatShare } from './food.ts';
import { coreMinusEdge, hottest, meanCore, peak, riseOverAir, steepestFall, trend } from './heat.ts';
import {
  builtMoisture,
  moistureEstimate,
  moistureReading,
  squeezeAgainstProbe,
  squeezeTest,
} from './moisture.ts';
import { coresApart, followsAir, handAgainstProbe, probeHistory } from './probe.ts';
import { afterBoth, afterTurn, afterWater, daysSinceTurned, hoursSinceWork } from './response.ts';
import { look, smell } from './senses.ts';
import { air, airPath, baseWater, cover, leastSide, rain, volume, watering } from './surroundings.ts';

/** Every kind of observation. The order is the order of the sums, nothing else. */
export const observationKinds: readonly ObservationKind[] = [
  moistureReading,
  squeezeTest,
  squeezeAgainstProbe,
  moistureEstimate,
  builtMoisture,
  smell,
  look,
  degradableLeft,
  heatShare,
  age,
  carbonToNitrogen,
  freeAirSpace,
  afterTurn,
  afterWater,
  afterBoth,
  hoursSinceWork,
  daysSinceTurned,
  riseOverAir,
  trend,
  steepestFall,
  coreMinusEdge,
  peak,
  hottest,
  meanCore,
  air,
  volume,
  leastSide,
  watering,
  rain,
  cover,
  airPath,
  baseWater,
  coresApart,
  followsAir,
  handAgainstProbe,
  probeHistory,
];
