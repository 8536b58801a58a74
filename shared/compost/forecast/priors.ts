/** What most piles are like before any reading, and how they wander. All ours, from the pile model's scenarios. */
import { Matrix } from 'ml-matrix';
import { defaultHeatJoulesPerKg } from '../kinetics/heatRelease.ts';
import type { MaterialParameters } from '../pileModel/parameters.ts';
import { at, heatCapacityJoulesPerKg } from './reducedModel.ts';
import { type Belief, learn } from './unscented.ts';

/** Middle and standard deviation of each part of the state, in the order of `at`. */
const before: readonly (readonly [middle: number, deviation: number])[] = [
  [20, 3],
  [Math.log(400), 0.7],
  [Math.log(700), 0.7],
  [Math.log(0.12), 0.5],
  [Math.log(0.3), 0.9],
  [-1.4, 1.5],
  [72, 2.5],
  [0.57, 0.09],
  [0.43, 0.05],
  [Math.log(0.4), 0.35],
  [Math.log(150), 1],
];

/**
 * How far each part wanders in a day beyond what the lump explains, standard deviation: water, settling and air paths
 * change as a pile works. Set by hand until bands covered about what they say on simulated piles; measured, with other
 * draws, in tests/reference/forecastCoverage.test.ts.
 */
export const wanderPerDay = Float64Array.from([0.8, 0.05, 0.08, 0.08, 0.12, 0.5, 0.4, 0.003, 0, 0.02, 0.08]);
/** How far a core reading is usually off, kelvin. */
export const readingDeviationKelvin = 0.4;
/** How far a moisture reading or a squeeze-test figure is usually off, wet basis. */
const moistureDeviation = 0.04;
/** Standard deviation of the jump a turning or watering may cause, kelvin. */
const disturbanceKelvin = 10;

/** What somebody may know of a pile as built: its moisture, or everything from the mix plan. */
export interface KnownAtBuilding {
  /** Wet-basis moisture, if known; otherwise about 0.57, widely. */
  readonly builtMoistureFraction?: number;
  /** The mix it was planned from: sharpens what is believed of its heat, rate and water. */
  readonly material?: MaterialParameters;
}

/** A plan is a better guess than none, and still a guess: standard deviation of the logarithm. */
const planDeviation = 0.4;

function tell(belief: Belief, part: number, value: number, deviation: number): void {
  belief.mean[part] = value;
  belief.covariance.set(part, part, deviation ** 2);
}

function tellMaterial(belief: Belief, material: MaterialParameters): void {
  const organic = (1 - material.moistureFraction) * (1 - material.ashFraction);
  const kelvin = (organic * material.degradableFraction * defaultHeatJoulesPerKg) / heatCapacityJoulesPerKg;
  const share = Math.min(0.98, Math.max(0.02, material.fastShareFraction));
  tell(belief, at.fastHeat, Math.log(Math.max(10, kelvin * share)), planDeviation);
  tell(belief, at.slowHeat, Math.log(Math.max(10, kelvin * (1 - share))), planDeviation);
  tell(belief, at.rate, Math.log(Math.max(0.01, material.fastRatePerDay)), planDeviation);
}

/** Belief before the first reading has been learnt from. */
export function firstBelief(celsius: number, known: KnownAtBuilding): Belief {
  const belief = {
    mean: Float64Array.from(before, ([middle]) => middle),
    covariance: Matrix.diag(before.map(([, deviation]) => deviation ** 2)),
  };
  belief.mean[at.celsius] = celsius;
  if (known.material) tellMaterial(belief, known.material);
  const moisture = known.builtMoistureFraction ?? known.material?.moistureFraction;
  if (moisture !== undefined) {
    tell(belief, at.water, moisture, moistureDeviation);
    tell(belief, at.dry, 1 - moisture, moistureDeviation);
  }
  return belief;
}

/** Learns from a moisture reading by the water it means beside the dry matter believed to be left. */
export function learnMoisture(belief: Belief, fraction: number): Belief {
  const held = Math.min(0.95, Math.max(0.02, fraction));
  const dry = belief.mean[at.dry]!;
  const deviation = (moistureDeviation * dry) / (1 - held) ** 2;
  return learn(belief, at.water, (held / (1 - held)) * dry, deviation ** 2);
}

/** Variance to add over a time; more where someone disturbed the pile. */
export function wanderVariance(days: number, disturbed: boolean): Float64Array {
  const variance = wanderPerDay.map((deviation) => deviation ** 2 * days);
  if (disturbed) variance[at.celsius]! += disturbanceKelvin ** 2;
  return variance;
}
