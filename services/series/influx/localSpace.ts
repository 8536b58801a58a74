import type { ForwardState } from '../forward/forwardState.ts';
import type { DiskStatus } from '../forward/status.ts';
import type { SeriesStore } from '../port.ts';

const dayMs = 86_400_000;
/** Rules read raw readings of the last four days; a week leaves room for a clock that was wrong. */
const fewestDays = 7;
const tenYearsDays = 3_650;

export interface LocalSpaceParts {
  readonly journal: Pick<SeriesStore, 'trim'>;
  readonly state: ForwardState;
  readonly forwardedSequence: () => number;
  readonly disk: () => DiskStatus;
  /** Days raw readings stay here; null = as long as there is space. */
  readonly localDays: number | null;
}

/**
 * Lets go of raw readings that InfluxDB has: those older than `localDays`, and, where space runs low, older and older
 * halves until it does not or a week is left. What InfluxDB has not got stays, whatever the space.
 * Returns how many were removed here.
 */
export async function keepLocalSpace(parts: LocalSpaceParts, nowMs: number): Promise<number> {
  let removed = parts.localDays === null ? 0 : await letGo(parts, parts.localDays, nowMs);
  let days = parts.localDays ?? tenYearsDays * 2;
  while (parts.disk().level !== 'ok' && days > fewestDays) {
    days = Math.max(fewestDays, Math.floor(days / 2));
    removed += await letGo(parts, days, nowMs);
  }
  return removed;
}

async function letGo(
  { journal, state, forwardedSequence }: LocalSpaceParts,
  days: number,
  nowMs: number,
): Promise<number> {
  const fromMs = nowMs - days * dayMs;
  // Said before it is done: a question in between is then asked of InfluxDB, which has them.
  await state.setMark('local-from-ms', Math.max(state.mark('local-from-ms') ?? fromMs, fromMs));
  return journal.trim({ rawDays: days, upToSequence: forwardedSequence() }, nowMs);
}
