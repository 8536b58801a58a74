import type { Alarm } from './alarm.ts';
import { standingStates } from './lifecycle.ts';

/** An alarm that has stood for longer than this is stale (ISA-18.2, restated: about 24 h). */
export const staleAfterHours = 24;

/** Alarms that have asked for attention without a break for more than a day, longest first. Hidden ones do not ask. */
export function staleAlarms<A extends Pick<Alarm, 'state' | 'activeSinceMs'>>(
  alarms: readonly A[],
  nowMs: number,
): A[] {
  return alarms
    .filter(
      (alarm) =>
        standingStates.includes(alarm.state) && standsSince(alarm) < nowMs - staleAfterHours * 3_600_000,
    )
    .sort((a, b) => standsSince(a) - standsSince(b));
}

const standsSince = ({ activeSinceMs }: Pick<Alarm, 'activeSinceMs'>): number =>
  activeSinceMs ?? Number.POSITIVE_INFINITY;
