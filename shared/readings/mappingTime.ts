import { valueAtPointer } from './jsonPointer.ts';
import { MappingError } from './mappingError.ts';

/** Numbers from here on are milliseconds: as seconds they would lie after the year 5138, as milliseconds in 1973. */
const firstMillisecondCount = 1e11;

/** Date, time and an offset from UTC. Without the offset the reading would move with the server's own time zone. */
const dateTimePattern = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})$/i;

const allowed = 'POSIX seconds or milliseconds, or a date and time with an offset, like 2026-03-29T01:00:00Z';

/**
 * Time of measurement in epoch milliseconds at a JSON Pointer, or null when the message has none there.
 * Throws MappingError for a value that is no time.
 */
export function mappedTimeMs(document: unknown, pointer: string): number | null {
  const found = valueAtPointer(document, pointer);
  if (found === undefined || found === null) return null;
  const timeMs = typeof found === 'number' ? fromNumber(found) : fromText(found);
  if (Number.isFinite(timeMs) && Math.abs(timeMs) <= 8.64e15) return timeMs;
  throw new MappingError(pointer, JSON.stringify(found).slice(0, 80), allowed);
}

function fromNumber(time: number): number {
  return Math.round(Math.abs(time) < firstMillisecondCount ? time * 1000 : time);
}

function fromText(time: unknown): number {
  if (typeof time !== 'string' || !dateTimePattern.test(time)) return Number.NaN;
  return Date.parse(time.replace(' ', 'T').replace(/([+-]\d{2})(\d{2})$/, '$1:$2'));
}
