import type { Sample } from '../../readings/reading.ts';
import { filledForward, hourlyMedians, hourMs } from './hourlyGrid.ts';
import {
  firstBelief,
  type KnownAtBuilding,
  learnMoisture,
  readingDeviationKelvin,
  wanderVariance,
} from './priors.ts';
import { advanceReduced, at, heatMade } from './reducedModel.ts';
import { type Belief, learn, predict } from './unscented.ts';

/** What a fit needs: the core's good readings, the air's, and when someone disturbed the pile. */
export interface PileRecord extends KnownAtBuilding {
  /** Good core readings in time order, Celsius. */
  readonly core: readonly Sample[];
  /** Air readings in time order; may be empty, then `meanAirCelsius` is used. */
  readonly air: readonly Sample[];
  readonly meanAirCelsius: number;
  /** Times of turning, opening, watering: the temperature may jump there. */
  readonly disturbedMs: readonly number[];
  /** Good moisture readings, wet basis 0..1, in time order, if there is a probe. */
  readonly moisture?: readonly Sample[];
  /** Water given, kg per kg of the pile as built (litres over the mass at building). */
  readonly addedWater?: readonly { readonly timeMs: number; readonly kgPerBuiltKg: number }[];
  /** The fit looks at readings before this time only. */
  readonly untilMs: number;
}

/** A fitted pile: what is believed of it at `timeMs`. */
export interface PileFit {
  readonly timeMs: number;
  readonly belief: Belief;
  /** Mean of the air over the last three days, Celsius. */
  readonly recentAirCelsius: number;
  /** Heat made so far by the fitted lump since its first reading, kelvin. */
  readonly heatMadeKelvin: number;
  readonly hoursUsed: number;
  /** Root mean square of one-hour-ahead errors over the last three days, kelvin. */
  readonly recentErrorKelvin: number;
}

/** The record hour by hour; NaN where an hour has no reading. */
interface Hours {
  readonly endMs: number;
  readonly core: Float64Array;
  readonly air: Float64Array;
  readonly moisture: Float64Array;
  readonly addedWater: Float64Array;
  readonly disturbed: ReadonlySet<number>;
}

function hoursOf(record: PileRecord): Hours {
  const first = record.core[0];
  if (first === undefined || first.timeMs >= record.untilMs) {
    throw new RangeError(`core has no reading before untilMs ${record.untilMs}; at least one is needed`);
  }
  const medians = (samples: readonly Sample[]) => hourlyMedians(samples, first.timeMs, record.untilMs);
  const { startMs, values: core } = medians(record.core);
  const hourOf = (ms: number) => Math.floor((ms - startMs) / hourMs);
  const addedWater = new Float64Array(core.length);
  for (const { timeMs, kgPerBuiltKg } of record.addedWater ?? []) {
    const hour = hourOf(timeMs);
    if (hour >= 0 && hour < core.length) addedWater[hour]! += kgPerBuiltKg;
  }
  return {
    endMs: startMs + core.length * hourMs,
    core,
    air: filledForward(medians(record.air).values, record.meanAirCelsius),
    moisture: medians(record.moisture ?? []).values,
    addedWater,
    disturbed: new Set(record.disturbedMs.map(hourOf)),
  };
}

/**
 * Learns a pile's heat potential, rate, loss and limit from its own readings, with their uncertainty.
 *
 * Readings are thinned to hourly medians; an hour without a good reading only widens the belief, so a silent or dead
 * probe is never taken for a cold pile.
 * @throws RangeError when there is no core reading before `untilMs`.
 */
export function fitPile(record: PileRecord): PileFit {
  const hours = hoursOf(record);
  let belief = firstBelief(record.core[0]!.value, record);
  let heatMadeKelvin = 0;
  const errors: number[] = [];
  hours.core.forEach((reading, hour) => {
    const move = (state: Float64Array) => void advanceReduced(state, hours.air[hour]!, 1 / 24);
    belief = predict(belief, move, wanderVariance(1 / 24, hours.disturbed.has(hour)));
    belief.mean[at.water]! += hours.addedWater[hour]!;
    if (!Number.isNaN(reading)) {
      errors.push(reading - belief.mean[at.celsius]!);
      belief = learn(belief, at.celsius, reading, readingDeviationKelvin ** 2);
    }
    if (!Number.isNaN(hours.moisture[hour]!)) belief = learnMoisture(belief, hours.moisture[hour]!);
    const { fast, slow } = heatMade(belief.mean);
    heatMadeKelvin += (fast + slow) / 24;
  });
  return {
    timeMs: hours.endMs,
    belief,
    recentAirCelsius: meanOf(hours.air.subarray(-72)),
    heatMadeKelvin,
    hoursUsed: errors.length,
    recentErrorKelvin: Math.sqrt(meanOf(errors.slice(-72).map((error) => error * error))),
  };
}

function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let index = 0; index < values.length; index += 1) sum += values[index]!;
  return sum / values.length;
}
