import { applyIntervention, type Intervention } from './interventions.ts';
import type { PileParameters } from './parameters.ts';
import { prepareSite } from './site.ts';
import { createPileState, moistureOf, type PileState, total, totalDryKg, volumeM3 } from './state.ts';
import { advance, longestStepSeconds } from './step.ts';
import type { WeatherAt } from './weather.ts';
import { core, edge, shoulder } from './zones.ts';

/** One value an output step, as plain typed arrays. Celsius, wet-basis fractions, mole fraction, W, kg/s, m3, kg. */
export interface CourseSeries {
  readonly coreCelsius: Float32Array;
  readonly shoulderCelsius: Float32Array;
  readonly edgeCelsius: Float32Array;
  readonly airCelsius: Float32Array;
  readonly coreMoistureFraction: Float32Array;
  readonly shoulderMoistureFraction: Float32Array;
  readonly edgeMoistureFraction: Float32Array;
  readonly coreOxygenFraction: Float32Array;
  readonly heatWatts: Float32Array;
  readonly airKgPerSecond: Float32Array;
  readonly volumeM3: Float32Array;
  readonly dryKg: Float32Array;
  readonly waterKg: Float32Array;
  readonly vapourKg: Float32Array;
}

/** A simulated life of a pile. */
export interface Course {
  readonly outputStepSeconds: number;
  /** Number of rows; row i is at i x outputStepSeconds after building. */
  readonly length: number;
  readonly series: CourseSeries;
  readonly finalState: PileState;
}

/** What to simulate. Interventions happen at the start of the internal step (10 minutes at most) they fall in. */
export interface CourseRequest {
  readonly days: number;
  readonly outputStepSeconds: number;
  readonly weatherAt: WeatherAt;
  readonly interventions?: readonly Intervention[];
}

type Row = Record<keyof CourseSeries, number>;

function readRow(state: PileState, parameters: PileParameters, airCelsius: number): Row {
  return {
    coreCelsius: state.celsius[core]!,
    shoulderCelsius: state.celsius[shoulder]!,
    edgeCelsius: state.celsius[edge]!,
    airCelsius,
    coreMoistureFraction: moistureOf(state, core),
    shoulderMoistureFraction: moistureOf(state, shoulder),
    edgeMoistureFraction: moistureOf(state, edge),
    coreOxygenFraction: state.oxygenFraction[core]!,
    heatWatts: state.heatWatts,
    airKgPerSecond: state.airKgPerSecond,
    volumeM3: volumeM3(state, parameters),
    dryKg: totalDryKg(state),
    waterKg: total(state.waterKg),
    vapourKg: state.ledger.vapourKg,
  };
}

function emptySeries(length: number): CourseSeries {
  const column = () => new Float32Array(length);
  return {
    coreCelsius: column(),
    shoulderCelsius: column(),
    edgeCelsius: column(),
    airCelsius: column(),
    coreMoistureFraction: column(),
    shoulderMoistureFraction: column(),
    edgeMoistureFraction: column(),
    coreOxygenFraction: column(),
    heatWatts: column(),
    airKgPerSecond: column(),
    volumeM3: column(),
    dryKg: column(),
    waterKg: column(),
    vapourKg: column(),
  };
}

/** Fills rows `from`..`to` of every column on the straight line between two states of the pile. */
function fillRows(
  series: CourseSeries,
  before: Row,
  after: Row,
  rows: { from: number; to: number; at: (row: number) => number },
): void {
  for (const name of Object.keys(series) as (keyof CourseSeries)[]) {
    const column = series[name];
    const start = before[name];
    const rise = after[name] - start;
    for (let row = rows.from; row <= rows.to; row += 1) column[row] = start + rise * rows.at(row);
  }
}

/**
 * Runs a pile from building through `days` days. Pure: the same request gives the same course.
 *
 * The model steps at most every ten minutes, and rows in between are drawn straight: a shell answers in hours, so a
 * year at one-minute rows costs a tenth of what one-minute steps would.
 */
export function simulateCourse(parameters: PileParameters, request: CourseRequest): Course {
  const { outputStepSeconds, weatherAt } = request;
  const site = prepareSite(parameters);
  const state = createPileState(parameters);
  const length = Math.floor((request.days * 86_400) / outputStepSeconds) + 1;
  const series = emptySeries(length);
  const waiting = [...(request.interventions ?? [])].sort((a, b) => a.atSeconds - b.atSeconds);
  let next = 0;
  let row = 0;
  let before = readRow(state, parameters, weatherAt(0).airCelsius);
  const endSeconds = (length - 1) * outputStepSeconds;
  for (let start = 0; row < length; start += longestStepSeconds) {
    const weather = weatherAt(start);
    while (next < waiting.length && waiting[next]!.atSeconds < start + longestStepSeconds) {
      applyIntervention(state, parameters, waiting[next]!, weather);
      next += 1;
    }
    advance(state, site, weather, longestStepSeconds);
    const after = readRow(state, parameters, weather.airCelsius);
    const last = Math.floor(Math.min(endSeconds, start + longestStepSeconds) / outputStepSeconds);
    const at = (index: number) => (index * outputStepSeconds - start) / longestStepSeconds;
    fillRows(series, before, after, { from: row, to: last, at });
    row = last + 1;
    before = after;
  }
  return { outputStepSeconds, length, series, finalState: state };
}
