import { ArchiveFault } from '../archive.ts';

/** How long is waited between tries. */
export interface Waits {
  /** After the first failure, ms; doubled with each further one. */
  readonly firstMs: number;
  /** Never longer than this while it may come back by itself, ms. */
  readonly longestMs: number;
  /** Between tries while only a person can set it right (wrong token, no such database), ms. */
  readonly forPersonMs: number;
  /** New readings are gathered this long into one batch, ms. */
  readonly gatherMs: number;
  /** The local store is looked at this often though nobody said there is something new, ms. */
  readonly lookMs: number;
}

export const defaultWaits: Waits = {
  firstMs: 500,
  longestMs: 60_000,
  forPersonMs: 60_000,
  gatherMs: 1_000,
  lookMs: 10_000,
};

/**
 * How long to wait after the `failures`-th failure in a row. Between half and all of the doubled time, by chance, so that
 * a hundred yards do not come back to their InfluxDB in the same second. `random` is 0..1.
 */
export function waitAfter(fault: unknown, failures: number, random: number, waits: Waits): number {
  const spread = 0.5 + random / 2;
  if (fault instanceof ArchiveFault && needsPerson(fault)) return waits.forPersonMs * spread;
  const doubled = Math.min(waits.longestMs, waits.firstMs * 2 ** Math.min(failures - 1, 30));
  const asked = fault instanceof ArchiveFault ? (fault.retryAfterMs ?? 0) : 0;
  // What the server asks for counts, but not for ever: a clock gone wrong may have written it.
  return Math.max(doubled * spread, Math.min(asked, 10 * waits.longestMs));
}

/** True when waiting alone will not help. */
export function needsPerson({ kind }: ArchiveFault): boolean {
  return kind === 'not-permitted' || kind === 'not-found' || kind === 'refused';
}

/** A wait that a ring or the stop ends early. */
export interface Bell {
  ring(): void;
  /** Resolves after `ms`, or at a ring where `wakes`; a ring before the call counts too. */
  wait(ms: number, wakes: boolean): Promise<void>;
}

/** Makes a bell; once `stopped` is aborted nothing waits any more. */
export function createBell(stopped: AbortSignal): Bell {
  let rung = false;
  let wake: (() => void) | null = null;
  return {
    ring() {
      rung = true;
      wake?.();
    },
    wait: (ms, wakes) =>
      new Promise((resolve) => {
        if (stopped.aborted || (wakes && rung)) {
          rung = false;
          return resolve();
        }
        const end = () => {
          clearTimeout(timer);
          stopped.removeEventListener('abort', end);
          wake = null;
          if (wakes) rung = false;
          resolve();
        };
        const timer = setTimeout(end, ms);
        stopped.addEventListener('abort', end);
        if (wakes) wake = end;
      }),
  };
}
