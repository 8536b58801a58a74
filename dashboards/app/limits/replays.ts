import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import type { FromReplayWorker, ReplayAsk, ToReplayWorker } from './replayMessages.ts';

/** A replay that was not finished: a newer one took its place, or a limit is not allowed. */
export class ReplayRefused extends Error {
  override readonly name = 'ReplayRefused';
  readonly field: string | null;
  constructor(message: string, field: string | null) {
    super(message);
    this.field = field;
  }
}

/** One pile's past, ready to be replayed again and again while limits are dragged. */
export interface Replays {
  /** Resolves to the outcome; to null when a newer question took its place. Rejects with ReplayRefused. */
  run(ask: ReplayAsk, onProgress?: (share: number) => void): Promise<ReplayOutcome | null>;
  /** Ends what runs: its promise resolves to null. */
  stop(): void;
  close(): void;
}

/** The worker's side of a message channel, so that tests can stand in for it. */
export type WorkerLike = Pick<Worker, 'postMessage' | 'addEventListener' | 'terminate'>;

const startWorker = (): WorkerLike =>
  new Worker(new URL('./replayWorker.ts', import.meta.url), { type: 'module' });

/** Hands a past (bytes of `GET /api/piles/:pileId/past`) to a worker of its own. */
export function openReplays(bytes: ArrayBuffer, worker: WorkerLike = startWorker()): Replays {
  let id = 1;
  let waiting: ((message: FromReplayWorker | null) => void) | null = null;
  const send = (message: ToReplayWorker, transfer: Transferable[] = []): void =>
    worker.postMessage(message, transfer);
  worker.addEventListener('message', (event) => {
    const { data } = event as MessageEvent<FromReplayWorker>;
    if (data.id === id) waiting?.(data);
  });
  send({ kind: 'past', id, bytes }, [bytes]);
  return {
    run: (ask, onProgress = () => {}) =>
      new Promise((resolve, reject) => {
        waiting?.(null);
        id += 1;
        waiting = (message) => {
          if (message === null) resolve(null);
          else if (message.kind === 'progress') onProgress(message.share);
          else if (message.kind === 'outcome') resolve(message.outcome);
          else reject(new ReplayRefused(message.message, message.field));
        };
        send({ kind: 'replay', id, ask });
      }),
    stop() {
      waiting?.(null);
      waiting = null;
      id += 1;
      send({ kind: 'cancel', id });
    },
    close() {
      waiting?.(null);
      worker.terminate();
    },
  };
}
