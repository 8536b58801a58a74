import { instantOf, localMoment } from '../../../../shared/messages/localInstant.ts';

/** A month by a yard's calendar: `2026-10`. */
export type Month = string;

const written = /^\d{4}-(?:0[1-9]|1[0-2])$/;

/** The month an instant lies in. */
export function monthOf(timeZone: string, atMs: number): Month {
  return localMoment(timeZone, atMs).day.slice(0, 7);
}

/** The month that many later, or earlier. */
export function monthAfter(month: Month, months: number): Month {
  const [year, number] = month.split('-').map(Number) as [number, number];
  return new Date(Date.UTC(year, number - 1 + months, 1)).toISOString().slice(0, 7);
}

/** From its first midnight to the next one's, or to now where it is not over. */
export function spanOf(timeZone: string, month: Month, nowMs: number): { fromMs: number; toMs: number } {
  const midnight = (one: Month) => instantOf(timeZone, `${one}-01`, 0);
  return { fromMs: midnight(month), toMs: Math.min(midnight(monthAfter(month, 1)), nowMs) };
}

/**
 * The month an address asks for. The last full one where it asks for none, for one that is to come, or for nonsense.
 */
export function askedMonth(asked: string | undefined, timeZone: string, nowMs: number): Month {
  const current = monthOf(timeZone, nowMs);
  return asked !== undefined && written.test(asked) && asked <= current ? asked : monthAfter(current, -1);
}
