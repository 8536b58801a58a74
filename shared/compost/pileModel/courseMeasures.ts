import { latentHeat } from '../psychrometrics.ts';
import type { Course } from './course.ts';

/** What a grower would say of a course. Days from building; null where it never came to it. */
export interface CourseMeasures {
  readonly daysTo40: number | null;
  readonly daysTo55: number | null;
  readonly peakCelsius: number;
  readonly peakDay: number;
  readonly daysAbove40: number;
  readonly daysAbove55: number;
  readonly daysAbove65: number;
  readonly daysAbove71: number;
  /** Last day the core was 10 C or more above the air. */
  readonly lastWarmDay: number | null;
  readonly lowestCoreMoistureFraction: number;
  readonly finalVolumeShare: number;
  readonly dryMassLossFraction: number;
  /** Part of the heat released that left as vapour's latent heat. */
  readonly evaporativeShareFraction: number;
}

function daysWhere(values: Float32Array, above: number, stepDays: number): number {
  let rows = 0;
  for (const value of values) if (value >= above) rows += 1;
  return rows * stepDays;
}

function firstDay(values: Float32Array, above: number, stepDays: number): number | null {
  const row = values.findIndex((value) => value >= above);
  return row < 0 ? null : row * stepDays;
}

/** Measures the core's course against the marks people use. */
export function measureCourse(course: Course): CourseMeasures {
  const { coreCelsius, airCelsius, coreMoistureFraction, volumeM3, dryKg } = course.series;
  const { ledger } = course.finalState;
  const stepDays = course.outputStepSeconds / 86_400;
  const peakRow = coreCelsius.reduce((best, value, row) => (value > coreCelsius[best]! ? row : best), 0);
  const lastWarm = coreCelsius.findLastIndex((value, row) => value >= airCelsius[row]! + 10);
  return {
    daysTo40: firstDay(coreCelsius, 40, stepDays),
    daysTo55: firstDay(coreCelsius, 55, stepDays),
    peakCelsius: coreCelsius[peakRow]!,
    peakDay: peakRow * stepDays,
    daysAbove40: daysWhere(coreCelsius, 40, stepDays),
    daysAbove55: daysWhere(coreCelsius, 55, stepDays),
    daysAbove65: daysWhere(coreCelsius, 65, stepDays),
    daysAbove71: daysWhere(coreCelsius, 71, stepDays),
    lastWarmDay: lastWarm < 0 ? null : lastWarm * stepDays,
    lowestCoreMoistureFraction: coreMoistureFraction.reduce((low, value) => Math.min(low, value), 1),
    finalVolumeShare: volumeM3.at(-1)! / volumeM3[0]!,
    dryMassLossFraction: 1 - dryKg.at(-1)! / dryKg[0]!,
    evaporativeShareFraction: (ledger.vapourKg * latentHeat(55) * 1e6) / ledger.heatReleased,
  };
}
