import type { Stage } from '../yard/yard.ts';
import type { Extreme } from './extreme.ts';
import type { PileWindow } from './pileWindow.ts';
import { type SanitisationStanding, standingOf } from './sanitisationRecord.ts';

const hourMs = 3_600_000;

/** Silence of the core up to this keeps the stage it was in (as the stage library does). */
const toleratedSilenceHours = 6;

/** The stage as of the last full hour; null when the core has been silent too long to know. */
export function stageOf(window: PileWindow): Stage | null {
  const { memory } = window.course;
  if (window.view.lastEntry(['finished']) !== null) return 'finished';
  const silentMs = window.nowMs - Math.max(memory.coreMs, known(window.coreNow));
  if (window.coreNow.certainty === 'unknown' && silentMs > toleratedSilenceHours * hourMs) return null;
  const isKnown = memory.stage.firstCelsius !== null || window.coreNow.certainty !== 'unknown';
  return isKnown ? memory.stage.stage : null;
}

/**
 * Once the record that is expected is complete, what conditions ask of it (since when, and the heat until then) no
 * longer changes, and only the other zones' progress does: a quarter of a day of heat later is soon enough for that.
 * Each judging goes through all rows, so a pile that stays hot for months would otherwise pay for them every hour.
 */
const rowsBetweenWhenComplete = 6;

/** The sanitisation record as of the last full hour; judged when somebody asks, at most once an hour. */
export function sanitisationOf(window: PileWindow): SanitisationStanding | null {
  const { rule, rows, record, facts, heat } = window;
  if (rule === null) return null;
  if (record !== null && isStillRight(record, rows.taken, window)) return record.standing;
  const standing = standingOf(rule, rows, facts, heat, (window.hour + 1) * hourMs);
  window.record = { taken: rows.taken, standing };
  return standing;
}

function isStillRight(
  record: NonNullable<PileWindow['record']>,
  taken: number,
  { facts, hour }: PileWindow,
): boolean {
  if (record.taken === taken) return true;
  if (record.standing.recordAtMs === null || taken - record.taken >= rowsBetweenWhenComplete) return false;
  // Fresh material clears the record, whenever that is.
  return !facts.journal.some(({ kind, timeMs }) => kind === 'added' && timeMs <= (hour + 1) * hourMs);
}

function known({ certainty, timeMs }: Extreme): number {
  return certainty === 'unknown' ? Number.NEGATIVE_INFINITY : timeMs;
}
