import type { ReplayJob, ReplayOutcome } from '../../../shared/rules/replayJob.ts';

/** What a page asks of a replay; the worker knows the past, the unit, and the limits in force when the past was fetched. */
export type ReplayAsk = Omit<ReplayJob, 'past' | 'current' | 'temperatureUnit'> & {
  /** Limits in force by now, when others have been saved since. */
  readonly current?: ReplayJob['current'];
};

/** To the worker. Ids grow; a newer message ends what an older one asked for. */
export type ToReplayWorker =
  | { readonly kind: 'past'; readonly id: number; readonly bytes: ArrayBuffer }
  | { readonly kind: 'replay'; readonly id: number; readonly ask: ReplayAsk }
  | { readonly kind: 'cancel'; readonly id: number };

/** From the worker. */
export type FromReplayWorker =
  | { readonly kind: 'progress'; readonly id: number; readonly share: number }
  | { readonly kind: 'outcome'; readonly id: number; readonly outcome: ReplayOutcome }
  | {
      readonly kind: 'refused';
      readonly id: number;
      /** The limit that is not allowed, e.g. `too-hot-ceiling.limitCelsius`. */
      readonly field: string | null;
      readonly message: string;
    };
