import { runInThread, type ThreadWork } from '../threads/runInThread.ts';
import type { OutlookAnswers, OutlookJob } from './outlookThread.ts';

/** A fit of a year takes about a second, sixteen usual piles three; on a loaded small machine some times that. */
const limitMs = 60_000;
const mostMemoryMegabytes = 512;
/** Whatever is asked, a pile is not fitted again sooner: in real time, because the demo's runs fast. */
const leastPauseMs = 15_000;
const mostKept = 600;

interface Kept {
  readonly key: string;
  readonly madeAt: number;
  readonly answer: Promise<unknown>;
}

/** Does the arithmetic of outlooks one at a time in threads, and keeps the answers: ten phones cost one fit. */
export class OutlookDesk {
  readonly #kept = new Map<string, Kept>();
  readonly #now: () => number;
  #last: Promise<unknown> = Promise.resolve();
  /** How many threads were really run; tests read it. */
  runs = 0;

  constructor(now: () => number = () => performance.now()) {
    this.#now = now;
  }

  /**
   * The answer kept under a name while `key` says that nothing it rests on has changed (or it is only seconds old), else a
   * new one. `job` is only called for a new one.
   */
  async ask<Kind extends OutlookJob['kind']>(
    name: string,
    key: string,
    job: () => Promise<Extract<OutlookJob, { kind: Kind }>>,
  ): Promise<OutlookAnswers[Kind]> {
    const found = this.#kept.get(name);
    if (found !== undefined && (found.key === key || this.#now() - found.madeAt < leastPauseMs))
      return found.answer as Promise<OutlookAnswers[Kind]>;
    const answer = this.#inTurn(job);
    this.#keep(name, { key, madeAt: this.#now(), answer });
    // A failure must not be handed out again.
    answer.catch(() => {
      if (this.#kept.get(name)?.answer === answer) this.#kept.delete(name);
    });
    return answer as Promise<OutlookAnswers[Kind]>;
  }

  #inTurn(job: () => Promise<OutlookJob>): Promise<unknown> {
    const turn = this.#last.then(async () => runInThread(this.#work(await job())));
    this.#last = turn.catch(() => {});
    return turn;
  }

  #work(job: OutlookJob): ThreadWork {
    this.runs += 1;
    return {
      entry: new URL('./outlookThread.ts', import.meta.url),
      ...{ job, limitMs, mostMemoryMegabytes },
      tookTooLong: 'Working out what is to come took too long and was given up. Try again later.',
    };
  }

  #keep(name: string, kept: Kept): void {
    this.#kept.delete(name);
    this.#kept.set(name, kept);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size > mostKept && oldest !== undefined) this.#kept.delete(oldest);
  }
}
