/**
 * What is to be expected of a pile: the lump fitted to its own readings and drawn ahead (`forecast`), and the band its mix
 * or method usually keeps to (`expectedBand`). Pure; the web service runs it in a thread of its own.
 */
import { seeded } from '../../statistics/seeded.ts';
import type { Banded } from '../forecast/banded.ts';
import { fitPile, type PileRecord } from '../forecast/fitPile.ts';
import {
  type EventForecast,
  forecastPile,
  type PileForecast,
  usualRequest,
} from '../forecast/forecastPile.ts';
import { type CourseQuestion, predictCourse } from '../planner/predictCourse.ts';

/** A band over time: rows `stepMs` apart, the first at `startMs`. */
export interface TimedBand {
  readonly startMs: number;
  readonly stepMs: number;
  readonly low: readonly number[];
  readonly middle: readonly number[];
  readonly high: readonly number[];
}

export interface ForecastQuestion {
  readonly record: PileRecord;
  readonly ceilingCelsius: number;
  /** Wet-basis moisture below which this pile counts as dry. */
  readonly dryFraction: number;
  readonly seed: number;
}

export interface ForecastAnswer {
  readonly path: TimedBand;
  readonly ceiling: EventForecast;
  readonly nearAir: EventForecast;
  readonly dry: EventForecast;
  readonly daysAbove55: Banded;
  readonly horizonDays: number;
  readonly hoursUsed: number;
  /** How far one hour ahead the fit has been off over the last three days, kelvin. */
  readonly recentErrorKelvin: number;
}

const hourMs = 3_600_000;
const farthestDays = 21;
/**
 * It looks ahead no further than this many times what it has read of: on simulated piles read for two or three days the
 * bands held for as many days (coverage 0.83 and more), and at seven no longer (0.58).
 */
const aheadOfRead = 1.5;
const draws = 150;
/** Rows kept for drawing. */
const keptHours = 3;

/** Fits and draws ahead; the same question gives the same answer. Throws a RangeError without a core reading. */
export function answerForecast(question: ForecastQuestion): ForecastAnswer {
  const { record, ceilingCelsius, dryFraction, seed } = question;
  const fit = fitPile(record);
  const horizonDays = Math.min(farthestDays, Math.max(2, Math.floor((fit.hoursUsed / 24) * aheadOfRead)));
  const forecast = forecastPile(fit, {
    ...{ horizonDays, draws, random: seeded(seed), ceilingCelsius, dryFraction },
    nearAirKelvin: usualRequest.nearAirKelvin,
  });
  const { ceiling, nearAir, dry, daysAbove55 } = forecast;
  const { hoursUsed, recentErrorKelvin } = fit;
  return {
    path: pathFrom(forecast, fit.belief.mean[0]!),
    ...{ ceiling, nearAir, dry, daysAbove55, horizonDays, hoursUsed, recentErrorKelvin },
  };
}

/** Begins where the pile is believed to be now, so that the band grows out of its curve. */
function pathFrom({ fromMs, path }: PileForecast, nowCelsius: number): TimedBand {
  const kept = (values: Float64Array) => [
    tenth(nowCelsius),
    ...Array.from(values)
      .filter((_, hour) => hour % keptHours === keptHours - 1)
      .map(tenth),
  ];
  const band = { low: kept(path.low), middle: kept(path.middle), high: kept(path.high) };
  return { startMs: fromMs, stepMs: keptHours * hourMs, ...band };
}

/** The band of a usual or planned pile from the day it was built. */
export function expectedBand(question: CourseQuestion, builtMs: number): TimedBand {
  const work = predictCourse(question);
  let step = work.next();
  while (!step.done) step = work.next();
  const { low, middle, high, stepDays } = step.value;
  const shown = (values: Float32Array) => Array.from(values, tenth);
  const band = { low: shown(low), middle: shown(middle), high: shown(high) };
  return { startMs: builtMs, stepMs: stepDays * 24 * hourMs, ...band };
}

/** More digits than a probe has would only be longer. */
const tenth = (value: number) => Math.round(value * 10) / 10;
