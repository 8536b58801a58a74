import type { BaseLogger } from 'pino';
import type { Clock } from '../../clock.ts';
import { ArchiveFault } from '../archive.ts';
import type { Delivery } from './deliver.ts';
import { type ForwardState, type ForwardStatus, stateText } from './status.ts';
import { needsPerson } from './waits.ts';

/** Keeps what state forwarding is in, since when, and tells the log of each change once. */
export interface Standing {
  caughtUp(): void;
  wrote(count: number, refused: Delivery['refused'], beyondRetention: number): void;
  failed(error: unknown): void;
  /** Failures in a row. */
  failures(): number;
  now(
    waiting: number,
    forwardedAtMs: number | null,
  ): Omit<ForwardStatus, 'forwardedSequence' | 'refused' | 'disk' | 'pace'>;
}

export function createStanding(clock: Clock, logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>): Standing {
  let state: ForwardState = 'catching-up';
  let fault: string | null = null;
  let sinceMs = clock.nowMs();
  let caughtUpAtMs: number | null = null;
  const startedMs = sinceMs;
  const counts = { written: 0, beyondRetention: 0, failures: 0 };

  function become(next: ForwardState, why: string | null, onlyAPersonHelps = false): void {
    if (next !== state) sinceMs = clock.nowMs();
    const changed = next !== state;
    [state, fault] = [next, why];
    if (!changed) return;
    const level = why === null ? 'info' : onlyAPersonHelps ? 'error' : 'warn';
    logger[level]({ forwarding: state }, stateText(state, fault));
  }

  return {
    caughtUp() {
      counts.failures = 0;
      caughtUpAtMs = clock.nowMs();
      become('caught-up', null);
    },
    wrote(count, refused, beyondRetention) {
      counts.failures = 0;
      counts.written += count;
      counts.beyondRetention += beyondRetention;
      for (const { reading, answer } of refused.slice(0, 5)) {
        logger.warn({ channel: reading.channel, timeMs: reading.timeMs }, `a reading was refused: ${answer}`);
      }
      // A reading on its way for a second is not news: only what was away or behind is told.
      if (state !== 'caught-up') become('catching-up', null);
    },
    failed(error) {
      counts.failures++;
      const message = error instanceof Error ? error.message : String(error);
      if (!(error instanceof ArchiveFault)) return become('local-store', message);
      become(error.kind, message, needsPerson(error));
    },
    failures: () => counts.failures,
    now(waiting, forwardedAtMs) {
      const waitingSinceMs = caughtUpAtMs ?? forwardedAtMs ?? startedMs;
      return {
        state,
        text: stateText(state, fault),
        sinceMs,
        waiting,
        waitingSinceMs: waiting > 0 ? waitingSinceMs : null,
        ...counts,
      };
    },
  };
}
