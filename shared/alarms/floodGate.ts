import type { Priority } from './alarm.ts';
import { activationsInWindow, type Flood, floodLimits, noFlood, stepFlood } from './flood.ts';

/** While a flood lasts, what has come since the last grouped text is told again after this long (our choice). */
export const groupAgainMinutes = 60;

/** Where one person's texts stand. `Held` is what is remembered of a text that was kept back. */
export interface PersonFlood<Held> {
  readonly flood: Flood;
  /** When the last texts would have gone, oldest first; only as many as the detector needs. */
  readonly textsMs: readonly number[];
  readonly held: readonly Held[];
  readonly groupedMs: number | null;
}

/** What becomes of the texts of one pass. */
export interface FloodStep<Text, Held> {
  readonly standing: PersonFlood<Held>;
  /** To be sent as they are. */
  readonly through: readonly Text[];
  /** To be told together in one text now; empty when there is none to send. */
  readonly together: readonly Held[];
}

export function calm<Held>(): PersonFlood<Held> {
  return { flood: noFlood, textsMs: [], held: [], groupedMs: null };
}

/** Nothing is counting and nothing is kept back: such a standing need not be remembered. */
export function isCalm<Held>({ flood, textsMs, held }: PersonFlood<Held>, nowMs: number): boolean {
  return !flood.flooding && held.length === 0 && activationsInWindow(textsMs, nowMs) === 0;
}

/**
 * One pass for one person: above 10 texts in ten minutes they are kept back and told together: at once, again every hour
 * with what has come since, and at the end, when fewer than 5 fall in ten minutes. Fire danger is never kept back.
 */
export function stepPersonFlood<Text extends { readonly priority: Priority }, Held>(
  before: PersonFlood<Held>,
  texts: readonly Text[],
  nowMs: number,
  hold: (text: Text) => Held,
): FloodStep<Text, Held> {
  const textsMs = [...before.textsMs, ...texts.map(() => nowMs)].slice(-(floodLimits.startAbove + 1));
  const flood = stepFlood(before.flood, activationsInWindow(textsMs, nowMs), nowMs);
  const isKept = (text: Text) => flood.flooding && text.priority !== 'highest';
  const held = [...before.held, ...texts.filter(isKept).map(hold)];
  const isDue =
    !flood.flooding || before.groupedMs === null || nowMs - before.groupedMs >= groupAgainMinutes * 60_000;
  const together = isDue ? held : [];
  const groupedMs = together.length > 0 ? nowMs : before.groupedMs;
  return {
    standing: {
      flood,
      textsMs,
      held: isDue ? [] : held,
      groupedMs: flood.flooding ? groupedMs : null,
    },
    through: texts.filter((text) => !isKept(text)),
    together,
  };
}
