import type { JournalEntry, JournalKind } from '../yard/journal.ts';

const minuteMs = 60_000;
const hourMs = 3_600_000;

/** What people do that lets air or water at the probes, or takes them out. */
export const handlingKinds = [
  'opened',
  'turned',
  'watered',
  'added',
  'moved',
  'probe-pulled',
  'probe-returned',
] as const satisfies readonly JournalKind[];

/** People write down "opened" some minutes after they did it (our choice, no source). */
const noticeMs = 30 * minuteMs;

/** How long the jumps last that an entry explains; a core is back on its course within hours (our choice, no source). */
const excusedMs = 6 * hourMs;

/** A probe that was pulled and never logged as returned is taken as back after this long (our choice, no source). */
export const longestPulledMs = 24 * hourMs;

type Handling = Pick<JournalEntry, 'timeMs' | 'kind'>;

/**
 * Since when the journal excuses jumps of a pile's readings at a time; null when it does not. `journal` in time order;
 * kinds that are no handling are passed over. A pulled probe excuses until it is returned and for some hours after.
 */
export function handledSince(journal: readonly Handling[], timeMs: number): number | null {
  let sinceMs: number | null = null;
  let untilMs = Number.NEGATIVE_INFINITY;
  for (const { kind, timeMs: atMs } of journal) {
    if (atMs - noticeMs > timeMs) break;
    if (!(handlingKinds as readonly JournalKind[]).includes(kind)) continue;
    if (sinceMs === null || atMs - noticeMs > untilMs) sinceMs = atMs - noticeMs;
    untilMs = atMs + (kind === 'probe-pulled' ? longestPulledMs + excusedMs : excusedMs);
  }
  return timeMs <= untilMs ? sinceMs : null;
}

/** A stretch in which a pile's probes measured something else than the pile; `toMs` is exclusive. */
export interface ProbesOut {
  readonly fromMs: number;
  readonly toMs: number;
}

/** When the pile's probes were out of it, by its journal (time order): from pulled to returned, a day at most. */
export function probesOut(journal: readonly Handling[]): ProbesOut[] {
  const stretches: ProbesOut[] = [];
  let pulledMs: number | null = null;
  for (const { kind, timeMs } of journal) {
    if (kind === 'probe-pulled') pulledMs ??= timeMs;
    if (kind !== 'probe-returned' || pulledMs === null) continue;
    stretches.push({ fromMs: pulledMs, toMs: Math.min(timeMs, pulledMs + longestPulledMs) });
    pulledMs = null;
  }
  if (pulledMs !== null) stretches.push({ fromMs: pulledMs, toMs: pulledMs + longestPulledMs });
  return stretches;
}
