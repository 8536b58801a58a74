import type { ReplayJob, ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import { ApiProblem, badField } from '../problems/apiProblem.ts';
import { runInThread } from '../threads/runInThread.ts';

/** What the thread says: the outcome, or which limit is not allowed. */
export type ReplayAnswer =
  | { readonly outcome: ReplayOutcome }
  | { readonly field: string; readonly message: string };

/** A replay that takes longer than this is given up: a year of minutes takes a second or two. */
const longestMs = 30_000;
/** One at a time, so that a small machine keeps a core for its real work; so many may wait. */
const mostWaiting = 4;
const mostMemoryMegabytes = 1024;

/** Runs replays one after another, each in a thread of its own that ends with it. */
export interface ReplayRunner {
  /**
   * Resolves to the outcome. Rejects with ApiProblem `not-ready` when too many wait or it takes too long, `bad-request`
   * when a limit is not allowed; with the signal's reason when whoever asked has gone.
   */
  run(job: ReplayJob, signal: AbortSignal): Promise<ReplayOutcome>;
}

export function createReplayRunner(limitMs: number = longestMs): ReplayRunner {
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();
  return {
    async run(job, signal) {
      if (waiting >= mostWaiting)
        throw new ApiProblem('not-ready', 'Other replays are running. Try again in a few seconds.', {
          retryAfterSeconds: 5,
        });
      waiting += 1;
      const turn = last.then(() => inThread(job, signal, limitMs));
      last = turn.catch(() => {});
      try {
        return await turn;
      } finally {
        waiting -= 1;
      }
    },
  };
}

async function inThread(job: ReplayJob, signal: AbortSignal, limitMs: number): Promise<ReplayOutcome> {
  const work = {
    ...{ entry: new URL('./replayThread.ts', import.meta.url), job, transfer: buffersOf(job) },
    ...{ limitMs, mostMemoryMegabytes },
    tookTooLong: `The replay took longer than ${Math.round(limitMs / 1000)} s and was given up. Ask for a shorter stretch.`,
  };
  const said = await runInThread<ReplayAnswer>(work, signal);
  if ('outcome' in said) return said.outcome;
  throw notAllowed(said);
}

function notAllowed({ field, message }: { readonly field: string; readonly message: string }): ApiProblem {
  const problem = badField(`overrides.${field}`, null, message);
  return new ApiProblem('bad-request', message, { errors: problem.errors });
}

/** Columns are handed over, not copied. */
function buffersOf({ past }: ReplayJob): ArrayBuffer[] {
  return past.channels.flatMap(({ timesMs, values, quality, reasons }) =>
    [timesMs, values, quality, reasons].flatMap((column) =>
      ArrayBuffer.isView(column) ? [column.buffer as ArrayBuffer] : [],
    ),
  );
}
