/** Thread entry: fits one pile, or runs one usual pile, and ends. */
import { parentPort, workerData } from 'node:worker_threads';
import {
  answerForecast,
  expectedBand,
  type ForecastAnswer,
  type ForecastQuestion,
  type TimedBand,
} from '../../../shared/compost/outlook/outlook.ts';
import { designOf, type PileDesign } from '../../../shared/compost/planner/pileDesign.ts';
import type { Plan } from '../../../shared/compost/planner/plan.ts';
import type { CourseQuestion } from '../../../shared/compost/planner/predictCourse.ts';

/** What a thread is asked, each with what it says to it. */
export type OutlookJob =
  | { readonly kind: 'forecast'; readonly question: ForecastQuestion }
  | { readonly kind: 'band'; readonly question: CourseQuestion; readonly builtMs: number }
  | { readonly kind: 'design'; readonly plan: Plan };

export interface OutlookAnswers {
  readonly forecast: ForecastAnswer;
  readonly band: TimedBand;
  readonly design: PileDesign | null;
}

function answer(job: OutlookJob): OutlookAnswers[OutlookJob['kind']] {
  if (job.kind === 'forecast') return answerForecast(job.question);
  return job.kind === 'band' ? expectedBand(job.question, job.builtMs) : designOf(job.plan);
}

parentPort!.postMessage(answer(workerData as OutlookJob));
