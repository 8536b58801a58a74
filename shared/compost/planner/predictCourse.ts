import { quantileOfSorted } from '../../statistics/quantile.ts';
import type { Banded } from '../forecast/banded.ts';
import { simulateCourse } from '../pileModel/course.ts';
import { type CourseMeasures, measureCourse } from '../pileModel/courseMeasures.ts';
import type { Intervention } from '../pileModel/interventions.ts';
import type { PileParameters } from '../pileModel/parameters.ts';
import { yearlyWeather } from '../pileModel/weather.ts';
import { normalOf, quasiRandom } from './quasiRandom.ts';

/** What to run. Plain data, so that it can be sent to a worker. */
export interface CourseQuestion {
  readonly parameters: PileParameters;
  readonly interventions: readonly Intervention[];
  readonly airCelsius: number;
  readonly dailySwingCelsius: number;
  readonly days: number;
  /** Standard deviations that the ingredients' own ranges give: wet-basis moisture, and bulk density as a share. */
  readonly moistureDeviation: number;
  readonly densityDeviationShare: number;
  /** How many other piles this plan might turn out to be. */
  readonly draws: number;
}

/** Figures carry the typical run in the middle and, around it, a tenth and nine tenths of all runs. */
export interface CourseAnswer {
  readonly stepDays: number;
  readonly low: Float32Array;
  readonly middle: Float32Array;
  readonly high: Float32Array;
  readonly daysAbove55: Banded;
  readonly daysAbove65: Banded;
  readonly daysAbove71: Banded;
  readonly daysAbove40: Banded;
  readonly peakCelsius: Banded;
  /** Day 55 C is reached in the typical run; null when it is not. */
  readonly dayOf55: number | null;
  readonly peakDay: number;
  /** Share of all runs whose core comes to 55 C, and of those that come to 71 C. */
  readonly shareReaching55: number;
  readonly shareReaching71: number;
  readonly lowestMoistureFraction: number;
  readonly volumeShareLeft: number;
  readonly runs: number;
}

interface Run {
  readonly core: Float32Array;
  readonly measures: CourseMeasures;
}

/** Rows kept for drawing: every third hour. */
const keepEvery = 3;

/**
 * Runs the plan as it stands and then as the piles it might turn out to be: one value a run, so that the caller can
 * show how far it has come. Pure: the same question gives the same answer.
 */
export function* predictCourse(question: CourseQuestion): Generator<number, CourseAnswer> {
  const runs: Run[] = [];
  for (let draw = 0; draw <= question.draws; draw += 1) {
    runs.push(runOf(question, draw === 0 ? question.parameters : drawn(question, draw)));
    yield (draw + 1) / (question.draws + 1);
  }
  return answerOf(runs);
}

function runOf(
  { interventions, airCelsius, dailySwingCelsius, days }: CourseQuestion,
  parameters: PileParameters,
): Run {
  const weatherAt = yearlyWeather({
    meanCelsius: airCelsius,
    yearlySwingCelsius: 0,
    dailySwingCelsius,
    startDayOfYear: 0,
  });
  const course = simulateCourse(parameters, { days, outputStepSeconds: 3600, weatherAt, interventions });
  const core = course.series.coreCelsius.filter((_, row) => row % keepEvery === 0);
  return { core, measures: measureCourse(course) };
}

/**
 * How far a pile may differ from its plan, standard deviations of logarithms (shares). 0.4 for the working rate and
 * what there is to work on is what the forecast takes for a planned mix; the rest is ours.
 */
const spread = { rate: 0.4, degradable: 0.2, microbes: 0.5, airPassage: 0.2, insulation: 0.3 } as const;

function drawn(question: CourseQuestion, draw: number): PileParameters {
  const { parameters, moistureDeviation, densityDeviationShare } = question;
  const { material } = parameters;
  const point = quasiRandom(draw);
  const z = (dimension: number) => normalOf(point[dimension]!);
  const times = (dimension: number, deviation: number) => Math.exp(deviation * z(dimension));
  return {
    ...parameters,
    material: {
      ...material,
      degradableFraction: Math.min(0.9, material.degradableFraction * times(0, spread.degradable)),
      fastRatePerDay: material.fastRatePerDay * times(1, spread.rate),
      slowRatePerDay: material.slowRatePerDay * times(2, spread.rate),
      moistureFraction: between(material.moistureFraction + moistureDeviation * z(3), 0.05, 0.92),
      bulkDensityKgPerM3: material.bulkDensityKgPerM3 * times(4, densityDeviationShare),
      inoculumFraction: between(material.inoculumFraction * times(5, spread.microbes), 0.01, 1),
    },
    air: { ...parameters.air, grainMetres: parameters.air.grainMetres * times(6, spread.airPassage) },
    surface: {
      ...parameters.surface,
      wallResistance: parameters.surface.wallResistance * times(7, spread.insulation),
    },
  };
}

function between(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/** The share of runs between the ends of a band. */
const bandEnds = [0.1, 0.9] as const;

function bandOf(typical: number, values: readonly number[]): Banded {
  const sorted = Float64Array.from(values).sort();
  const [low, high] = bandEnds.map((share) => quantileOfSorted(sorted, share)) as [number, number];
  return { low: Math.min(typical, low), middle: typical, high: Math.max(typical, high) };
}

function answerOf(runs: readonly Run[]): CourseAnswer {
  const [typical] = runs;
  if (typical === undefined) throw new RangeError('draws is -1; allowed is 0 or more');
  const measured = (of: (measures: CourseMeasures) => number) =>
    bandOf(
      of(typical.measures),
      runs.map(({ measures }) => of(measures)),
    );
  const bands = Array.from(typical.core, (value, row) =>
    bandOf(
      value,
      runs.map(({ core }) => core[row]!),
    ),
  );
  const share = (test: (measures: CourseMeasures) => boolean) =>
    runs.filter(({ measures }) => test(measures)).length / runs.length;
  return {
    stepDays: keepEvery / 24,
    low: Float32Array.from(bands, ({ low }) => low),
    middle: typical.core,
    high: Float32Array.from(bands, ({ high }) => high),
    daysAbove40: measured(({ daysAbove40 }) => daysAbove40),
    daysAbove55: measured(({ daysAbove55 }) => daysAbove55),
    daysAbove65: measured(({ daysAbove65 }) => daysAbove65),
    daysAbove71: measured(({ daysAbove71 }) => daysAbove71),
    peakCelsius: measured(({ peakCelsius }) => peakCelsius),
    dayOf55: typical.measures.daysTo55,
    peakDay: typical.measures.peakDay,
    shareReaching55: share(({ daysTo55 }) => daysTo55 !== null),
    shareReaching71: share(({ daysAbove71 }) => daysAbove71 > 0),
    lowestMoistureFraction: typical.measures.lowestCoreMoistureFraction,
    volumeShareLeft: typical.measures.finalVolumeShare,
    runs: runs.length,
  };
}
