import type { PileParameters } from '../pileModel/parameters.ts';
import type { MixRanges } from './mixRanges.ts';
import { courseDays, interventionsOf } from './pilePlan.ts';
import type { Plan } from './plan.ts';
import type { CourseQuestion } from './predictCourse.ts';

/** Other piles the plan might turn out to be; with the typical one, sixteen runs. */
const usualDraws = 15;

/** A printed range counts as about two standard deviations each way. Ours. */
const deviationsInRange = 2;
/** How far a mix packs is given from 10 to 40 %, which is nearly every mix: three each way. Ours. */
const deviationsInPacking = 3;

/** The question for the pile model that a plan asks. */
export function courseQuestion(plan: Plan, parameters: PileParameters, ranges: MixRanges): CourseQuestion {
  const { moistureFraction, bulkDensity } = ranges;
  const half = (range: { low: number; high: number } | null) =>
    range === null ? 0 : (range.high - range.low) / 2;
  return {
    parameters,
    interventions: interventionsOf(plan, parameters.channels !== null),
    airCelsius: plan.running.airCelsius,
    dailySwingCelsius: plan.running.dailySwingCelsius,
    days: courseDays,
    moistureDeviation: half(moistureFraction) / deviationsInRange,
    densityDeviationShare:
      bulkDensity === null ? 0 : half(bulkDensity) / deviationsInPacking / bulkDensity.value,
    draws: usualDraws,
  };
}
