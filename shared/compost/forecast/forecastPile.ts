import { type Banded, banded } from './banded.ts';
import type { PileFit } from './fitPile.ts';
import { wanderPerDay } from './priors.ts';
import { normalFrom, type RandomSource } from './random.ts';
import { advanceReduced, at, moistureOf, stateLength } from './reducedModel.ts';
import { triangleOf } from './unscented.ts';

/** How far to look, and against which marks. */
export interface ForecastRequest {
  readonly horizonDays: number;
  /** How many possible futures are drawn; 200 gives bands steady to about a tenth of their width. */
  readonly draws: number;
  readonly random: RandomSource;
  readonly ceilingCelsius: number;
  /** "Near air" means within this of it. */
  readonly nearAirKelvin: number;
  /** Moisture, wet basis, below which this pile counts as dry. */
  readonly dryFraction: number;
  /** Air to come, Celsius by days ahead; left out, the last three days' mean goes on. */
  readonly airCelsius?: (daysAhead: number) => number;
}

/** Usual marks: 71 C ceiling, within 8 C of the air, dry below 45 % (reference 7.3). */
export const usualRequest = {
  horizonDays: 60,
  draws: 200,
  ceilingCelsius: 71,
  nearAirKelvin: 8,
  dryFraction: 0.45,
} as const;

/** When something happens: how likely within the horizon, and the days until it among the futures where it does. */
export interface EventForecast {
  readonly probability: number;
  /** Days ahead; where the future holds none, the horizon stands for "later than that". */
  readonly days: Banded;
}

/** A forecast with 80 % bands. `path` rows are `stepDays` apart, the first one step ahead. */
export interface PileForecast {
  readonly fromMs: number;
  readonly horizonDays: number;
  readonly stepDays: number;
  readonly path: { readonly low: Float64Array; readonly middle: Float64Array; readonly high: Float64Array };
  readonly ceiling: EventForecast;
  readonly nearAir: EventForecast;
  /** Days at 55 C or more still to come within the horizon. */
  readonly daysAbove55: Banded;
  /** Heat to be made within the horizon, kelvin. */
  readonly heatKelvin: Banded;
  /** When the pile gets dry if nobody waters it. */
  readonly dry: EventForecast;
  /** Wet-basis moisture at the end of each day ahead. */
  readonly moisturePath: {
    readonly low: Float64Array;
    readonly middle: Float64Array;
    readonly high: Float64Array;
  };
}

const stepDays = 1 / 24;
/** Slow error of any weather outlook, kelvin (ours). */
const airDeviationKelvin = 3;
/** Hot piles must stay near air this long to count as arrived, hours: a cool night is not the end. */
const nearAirHours = 12;

/** One possible future: hourly temperatures and what happens on the way. */
interface Future {
  readonly celsius: Float64Array;
  readonly ceilingDays: number;
  readonly nearAirDays: number;
  readonly daysAbove55: number;
  readonly heatKelvin: number;
  readonly dryDays: number;
  readonly moisture: Float64Array;
}

function drawState(
  fit: PileFit,
  triangle: ReturnType<typeof triangleOf>,
  random: RandomSource,
): Float64Array {
  const normals = Array.from({ length: stateLength }, () => normalFrom(random));
  return fit.belief.mean.map((value, row) => {
    let sum = value;
    for (let column = 0; column <= row; column += 1) sum += triangle.get(row, column) * normals[column]!;
    return sum;
  });
}

/** Lets the hidden figures wander for a day's worth as they did in the fit. */
function wander(state: Float64Array, random: RandomSource): void {
  for (let part = 1; part < stateLength; part += 1) state[part]! += wanderPerDay[part]! * normalFrom(random);
}

function drawFuture(fit: PileFit, state: Float64Array, request: ForecastRequest): Future {
  const hours = Math.round(request.horizonDays / stepDays);
  const offset = airDeviationKelvin * normalFrom(request.random);
  const celsius = new Float64Array(hours);
  const moisture = new Float64Array(Math.floor(hours / 24));
  let [ceilingDays, nearAirDays, dryDays] = [Infinity, Infinity, Infinity];
  let [above, heatKelvin, near] = [0, 0, 0];
  for (let hour = 0; hour < hours; hour += 1) {
    const ahead = (hour + 1) * stepDays;
    const air = (request.airCelsius?.(ahead) ?? fit.recentAirCelsius) + offset * Math.min(1, ahead / 3);
    heatKelvin += advanceReduced(state, air, stepDays);
    state[at.celsius]! += wanderPerDay[at.celsius]! * Math.sqrt(stepDays) * normalFrom(request.random);
    const now = state[at.celsius]!;
    celsius[hour] = now;
    if (now >= request.ceilingCelsius) ceilingDays = Math.min(ceilingDays, ahead);
    if (now >= 55) above += stepDays;
    near = now <= air + request.nearAirKelvin ? near + 1 : 0;
    if (hour % 24 === 23) {
      wander(state, request.random);
      moisture[(hour - 23) / 24] = moistureOf(state);
      if (moistureOf(state) < request.dryFraction) dryDays = Math.min(dryDays, ahead);
    }
    if (near === nearAirHours) nearAirDays = Math.min(nearAirDays, ahead - (nearAirHours - 1) * stepDays);
  }
  return { celsius, ceilingDays, nearAirDays, daysAbove55: above, heatKelvin, dryDays, moisture };
}

function eventOf(days: readonly number[], horizonDays: number): EventForecast {
  const happens = days.filter((value) => value <= horizonDays).length;
  return {
    probability: happens / days.length,
    days: banded(days.map((value) => Math.min(value, horizonDays))),
  };
}

function pathOf(futures: readonly Float64Array[]): PileForecast['path'] {
  const rows = futures[0]!.length;
  const path = { low: new Float64Array(rows), middle: new Float64Array(rows), high: new Float64Array(rows) };
  for (let row = 0; row < rows; row += 1) {
    const band = banded(futures.map((future) => future[row]!));
    path.low[row] = band.low;
    path.middle[row] = band.middle;
    path.high[row] = band.high;
  }
  return path;
}

/**
 * Draws possible futures of a fitted pile and says where most of them go. Nobody turning or watering is assumed.
 *
 * Not to be promised tighter than its band: of published models none met 5 K, 2 K and 8 h (Mason 2006, confirmed).
 * @throws RangeError when the horizon or the number of draws is not above 0.
 */
export function forecastPile(fit: PileFit, request: ForecastRequest): PileForecast {
  if (!(request.horizonDays > 0 && request.draws > 0)) {
    throw new RangeError(`horizonDays ${request.horizonDays} and draws ${request.draws} must be above 0`);
  }
  const triangle = triangleOf(fit.belief.covariance);
  const futures = Array.from({ length: request.draws }, () =>
    drawFuture(fit, drawState(fit, triangle, request.random), request),
  );
  const { horizonDays } = request;
  return {
    fromMs: fit.timeMs,
    horizonDays,
    stepDays,
    path: pathOf(futures.map((future) => future.celsius)),
    dry: eventOf(
      futures.map((future) => future.dryDays),
      horizonDays,
    ),
    moisturePath: pathOf(futures.map((future) => future.moisture)),
    ceiling: eventOf(
      futures.map((future) => future.ceilingDays),
      horizonDays,
    ),
    nearAir: eventOf(
      futures.map((future) => future.nearAirDays),
      horizonDays,
    ),
    daysAbove55: banded(futures.map((future) => future.daysAbove55)),
    heatKelvin: banded(futures.map((future) => future.heatKelvin)),
  };
}
