/** Thread entry: does one replay and ends. The web service goes on answering meanwhile, and may end it at any time. */
import { parentPort, workerData } from 'node:worker_threads';
import { LimitError } from '../../../shared/rules/parameters.ts';
import { type ReplayJob, replayJobSteps } from '../../../shared/rules/replayJob.ts';
import type { ReplayAnswer } from './runReplay.ts';

function answer(job: ReplayJob): ReplayAnswer {
  try {
    const steps = replayJobSteps(job);
    for (let step = steps.next(); ; step = steps.next())
      if (step.done === true) return { outcome: step.value };
  } catch (error) {
    if (error instanceof LimitError) return { field: error.field, message: error.message };
    throw error;
  }
}

parentPort!.postMessage(answer(workerData as ReplayJob));
