/**
 * Worker: holds one pile's past and replays it with whatever limits it is asked to, so that the page stays smooth while
 * a line is dragged. A new question ends the one before it. `replays.ts` is the page's side.
 */
import { decodePast, type ReplayablePast } from '../../../shared/api/past.ts';
import { LimitError } from '../../../shared/rules/parameters.ts';
import { replayJobSteps } from '../../../shared/rules/replayJob.ts';
import type { FromReplayWorker, ToReplayWorker } from './replayMessages.ts';
import { limitWords } from './words.ts';

/** Work goes on this long before messages are looked at again. */
const turnMilliseconds = 12;

let held: ReplayablePast | null = null;
let latest = 0;

const say = (message: FromReplayWorker): void => postMessage(message);
const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

addEventListener('message', ({ data }: MessageEvent<ToReplayWorker>) => {
  latest = data.id;
  if (data.kind === 'past') held = decodePast(data.bytes);
  else if (data.kind === 'replay') void answer(data);
});

async function answer({ id, ask }: Extract<ToReplayWorker, { kind: 'replay' }>): Promise<void> {
  if (held === null) return say({ kind: 'refused', id, field: null, message: limitWords.noPast });
  const { past, limits, temperatureUnit } = held;
  const steps = replayJobSteps({ current: limits, ...ask, past, temperatureUnit });
  try {
    for (let endMs = performance.now() + turnMilliseconds; ; ) {
      const step = steps.next();
      if (step.done === true) return say({ kind: 'outcome', id, outcome: step.value });
      if (performance.now() < endMs) continue;
      say({ kind: 'progress', id, share: step.value });
      await nextTurn();
      if (latest !== id) return;
      endMs = performance.now() + turnMilliseconds;
    }
  } catch (error) {
    const field = error instanceof LimitError ? error.field : null;
    say({ kind: 'refused', id, field, message: error instanceof Error ? error.message : String(error) });
  }
}
