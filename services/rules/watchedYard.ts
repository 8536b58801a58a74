import type { AlarmCommit, LeaseGrant, Records } from '../records/port.ts';
import type { StoredReading } from '../series/port.ts';
import { wasAway } from './clockWatch.ts';
import type { Until, YardDesk } from './yardDesk.ts';

/** One mark for all yards, as earlier versions wrote it: where a yard that has none of its own goes on from. */
const commonCursorMark = 'rules:cursor';
const aliveEveryMs = 60_000;

/** Names of a yard's own marks: its place in the stream, when it was last judged, since when without a long break. */
export const cursorMarkOf = (yardId: string): string => `rules:cursor:${yardId}`;
const aliveMarkOf = (yardId: string): string => `rules:alive:${yardId}`;
const listeningMarkOf = (yardId: string): string => `rules:listening:${yardId}`;

type Marks = Records['marks'];

/** Place in the stream a yard's judgement goes on from; null when nothing is known of it. */
export async function storedCursor(marks: Marks, yardId: string): Promise<number | null> {
  const stored = (await marks.get(cursorMarkOf(yardId))) ?? (await marks.get(commonCursorMark));
  return stored === null ? null : Number(stored);
}

/** A yard being judged here: its desks, its place in the stream of readings, and the right by which it is judged. */
export class WatchedYard {
  readonly desk: YardDesk;
  /** Null: nobody else could judge it. */
  readonly grant: LeaseGrant | null;
  /** Last sequence taken from the store, and last one written to the mark. */
  taken: number;
  #stored: number | null;
  /** Measured latest of what was taken since it was opened. */
  newestMs = Number.NEGATIVE_INFINITY;
  #aliveMs = 0;

  /** `isStored`: the cursor was read from a mark; else it is written with the first sign of life. */
  constructor(desk: YardDesk, cursor: number, isStored: boolean, grant: LeaseGrant | null) {
    this.desk = desk;
    this.taken = cursor;
    this.#stored = isStored ? cursor : null;
    this.grant = grant;
  }

  get id(): string {
    return this.desk.facts.yard.id;
  }

  /** Readings it has taken already pass by: the stream may run again for a yard that is further back. */
  take(readings: readonly StoredReading[]): void {
    for (const reading of readings) {
      if (reading.sequence <= this.taken) continue;
      this.desk.take(reading);
      this.newestMs = Math.max(this.newestMs, reading.timeMs);
      this.taken = reading.sequence;
    }
  }

  /** The cursor stands before the first reading that still waits in memory: a restart takes it again. */
  cursorMarks(): [string, string][] {
    const waiting = this.desk.lowestPending();
    const cursor = waiting === null ? this.taken : Math.min(this.taken, waiting - 1);
    if (cursor === this.#stored) return [];
    this.#stored = cursor;
    return [[cursorMarkOf(this.id), String(cursor)]];
  }

  /** After a long break silence counts from now, also after the next restart. */
  async resumeListening(records: Records, until: Until): Promise<void> {
    const { marks } = records;
    const alive = (await marks.get(aliveMarkOf(this.id))) ?? (await marks.get('rules:alive'));
    const since = (await marks.get(listeningMarkOf(this.id))) ?? (await marks.get('rules:listening'));
    const isBack = wasAway(alive === null ? null : Number(alive), until.nowMs);
    if (isBack) await this.#mark(records, [[listeningMarkOf(this.id), String(until.nowMs)]]);
    const sinceMs = isBack ? until.nowMs : Number(since ?? 0);
    await this.desk.turnBack(until);
    if (sinceMs <= until.nowMs) this.desk.doubtSilence(sinceMs);
    this.#aliveMs = Number(alive ?? 0);
  }

  /** The machine slept or the clock leapt ahead: who was silent meanwhile is given the benefit of the doubt. */
  async listenFrom(records: Records, nowMs: number): Promise<void> {
    await this.#mark(records, [[listeningMarkOf(this.id), String(nowMs)]]);
    this.desk.doubtSilence(nowMs);
  }

  /** A sign of life now and then, and with it the place in the stream: a quiet yard's must not stay far behind. */
  async noteAlive(records: Records, nowMs: number): Promise<void> {
    if (Math.abs(nowMs - this.#aliveMs) < aliveEveryMs) return;
    this.#aliveMs = nowMs;
    await this.#mark(records, [[aliveMarkOf(this.id), String(nowMs)], ...this.cursorMarks()]);
  }

  /** The step is another process's to make as soon as the grant is. */
  commit(records: Records, step: AlarmCommit): Promise<void> {
    return records.alarms.commit({ ...step, lease: this.grant });
  }

  #mark(records: Records, marks: [string, string][]): Promise<void> {
    return this.commit(records, { alarms: [], transitions: [], messages: [], statuses: [], marks });
  }
}
