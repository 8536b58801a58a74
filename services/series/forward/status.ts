import type { ArchiveFaultKind } from '../archive.ts';

/** Where forwarding stands. `local-store` means that our own disk, not the archive, is the trouble. */
export type ForwardState = 'caught-up' | 'catching-up' | ArchiveFaultKind | 'local-store';

/** How much of the space given to the local store is used. `low` comes well before `full`. */
export interface DiskStatus {
  readonly level: 'ok' | 'low' | 'full';
  readonly usedBytes: number;
  /** Null: no bound but the disk itself. */
  readonly limitBytes: number | null;
}

/** How catching up goes. */
export interface ForwardPace {
  readonly readingsPerSecond: number;
  readonly secondsLeft: number;
}

/** What an owner, a metric or an alarm may want to know of forwarding. */
export interface ForwardStatus {
  readonly state: ForwardState;
  /** The state in plain words, and what to do about it. Holds no secret. */
  readonly text: string;
  /** Since when the state is what it is. */
  readonly sinceMs: number;
  /** Readings stored here and not yet there. */
  readonly waiting: number;
  /** Since when something has been waiting; null when nothing is. */
  readonly waitingSinceMs: number | null;
  /** Everything up to this sequence is there (or was refused). */
  readonly forwardedSequence: number;
  /** Readings written since this process started. */
  readonly written: number;
  /** Readings refused one by one, since the forwarding file was made. They are still in the local store. */
  readonly refused: number;
  /** Readings the archive's own retention was already past, since this process started. */
  readonly beyondRetention: number;
  /** Failed tries in a row. */
  readonly failures: number;
  /** Null while it is not catching up. */
  readonly pace: ForwardPace | null;
  readonly disk: DiskStatus;
}

const calm = 'Readings wait in the local store until it takes them; alarms do not depend on it.';

/** What each state means and asks for. `fault` is what the archive or the disk said. */
export function stateText(state: ForwardState, fault: string | null): string {
  const texts: Record<ForwardState, string> = {
    'caught-up': 'InfluxDB has every reading.',
    'catching-up': 'InfluxDB is being given the readings that wait.',
    away: `InfluxDB cannot be reached. ${calm} See that it runs and that series.influx.url is right.`,
    busy: `InfluxDB answers that it cannot write just now. ${calm} See its log and its disk.`,
    'not-permitted': `InfluxDB does not let us in. ${calm} Put a token (or user and password) into series.influx that may read and write, then start again.`,
    'not-found': `InfluxDB has no such database or bucket. ${calm} Make it there, or correct series.influx.database and org.`,
    refused: `InfluxDB takes none of the readings. ${calm} See what it says, and whether something else writes to "reading" in this database.`,
    'local-store': 'The local store could not be read or written. See that its disk has room and is sound.',
  };
  return fault === null ? texts[state] : `${texts[state]} (${fault})`;
}

/** The status as named numbers and words, for the list a keeper can look at. */
export function forwardStatistics(status: ForwardStatus | null): Record<string, number | string | null> {
  if (status === null) return {};
  const { state, text, waiting, waitingSinceMs, written, refused, beyondRetention, disk, pace } = status;
  return {
    'influx.state': state,
    'influx.text': text,
    'influx.waiting': waiting,
    'influx.waitingSinceMs': waitingSinceMs,
    'influx.readingsPerSecond': pace?.readingsPerSecond ?? null,
    'influx.secondsLeft': pace?.secondsLeft ?? null,
    'influx.written': written,
    'influx.refused': refused,
    'influx.beyondRetention': beyondRetention,
    'influx.localSpace': disk.level,
    'influx.localBytes': disk.usedBytes,
    'influx.localLimitBytes': disk.limitBytes,
  };
}

/** The share of the limit from which on it warns and lets go of what the archive has. */
const warnAt = 0.8;

/** Used share of the space given to the local store; null where none is given. */
export function usedFraction({ usedBytes, limitBytes }: DiskStatus): number | null {
  return limitBytes === null ? null : usedBytes / limitBytes;
}

/** Judges how full the local store is. */
export function diskStatus(usedBytes: number, limitBytes: number | null): DiskStatus {
  const share = limitBytes === null ? 0 : usedBytes / limitBytes;
  return { level: share >= 1 ? 'full' : share >= warnAt ? 'low' : 'ok', usedBytes, limitBytes };
}
