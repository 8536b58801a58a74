import { type Transferable, Worker } from 'node:worker_threads';
import { ApiProblem } from '../problems/apiProblem.ts';

export interface ThreadWork {
  /** The thread's file: it gets `job` as its workerData, posts one message and ends. */
  readonly entry: URL;
  readonly job: unknown;
  /** Handed over, not copied. */
  readonly transfer?: readonly Transferable[];
  readonly limitMs: number;
  readonly mostMemoryMegabytes: number;
  /** What is said when it takes longer, in words for people. */
  readonly tookTooLong: string;
}

/**
 * Does one piece of arithmetic in a thread of its own that ends with it, so that the service goes on answering. Rejects
 * with ApiProblem `not-ready` when it takes too long, with the signal's reason when whoever asked has gone.
 */
export async function runInThread<Said>(work: ThreadWork, signal?: AbortSignal): Promise<Said> {
  signal?.throwIfAborted();
  const worker = new Worker(work.entry, {
    workerData: work.job,
    transferList: [...(work.transfer ?? [])],
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: work.mostMemoryMegabytes },
  });
  const ended = new AbortController();
  const said = new Promise<Said>((resolve, reject) => {
    const tooLong = () => reject(new ApiProblem('not-ready', work.tookTooLong));
    const timer = setTimeout(tooLong, work.limitMs);
    ended.signal.addEventListener('abort', () => clearTimeout(timer));
    signal?.addEventListener('abort', () => reject(signal.reason), { signal: ended.signal });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`the thread ended with ${code}`)));
  });
  try {
    return await said;
  } finally {
    ended.abort();
    await worker.terminate();
  }
}
