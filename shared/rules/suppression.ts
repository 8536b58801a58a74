import type { JournalKind } from '../yard/journal.ts';
import type { PileView } from './pileView.ts';

const workWords: Partial<Record<JournalKind, string>> = {
  opened: 'opened',
  turned: 'turned',
  watered: 'watered',
  added: 'added to',
  moved: 'moved',
};

/** A fall is expected after work on the pile: dips of 5-15 C after a turn recover in 0.5-2 days (synthesis, unconfirmed). */
export function afterWork(view: PileView, hours: number): string | null {
  const entry = view.lastEntry(['opened', 'turned', 'watered', 'added', 'moved']);
  if (entry === null || view.nowMs - entry.timeMs >= hours * 3_600_000) return null;
  return `${workWords[entry.kind]} less than ${hours} h ago: a fall is expected`;
}

/** Nothing cold counts on the first day. */
export function justBuilt(view: PileView, hours = 24): string | null {
  const entry = view.lastEntry(['built']);
  const builtMs = Math.max(entry?.timeMs ?? 0, view.pile.startedMs);
  return view.nowMs - builtMs < hours * 3_600_000 ? `built less than ${hours} h ago` : null;
}

/** A cold alarm waits out of sight while the core is back above its limit: it ends, or shows again when it falls again. */
export function warmAgain(view: PileView, limitCelsius: number): string | null {
  const isWarm = view.coreCelsius !== null && view.coreCelsius >= limitCelsius;
  return isWarm ? 'it is warm again: waiting to see whether it stays so' : null;
}
