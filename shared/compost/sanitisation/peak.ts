import type { Stretch } from './stretches.ts';

/** A hotter spell measured on the clock of credited time, which stands still while the pile is below the band. */
interface Spell {
  readonly from: number;
  readonly to: number;
}

/** The best found so far and, when the need was met, the credited time at which that was so. */
export interface PeakOutcome {
  readonly bestMs: number;
  readonly metAtCreditedMs: number | null;
}

/**
 * Looks for a window of `windowMs` of credited time that holds `neededMs` of hotter time. It is enough to try windows
 * that begin with a spell and windows that end with one: between those the sum changes linearly.
 */
export function findPeak(
  period: readonly Stretch[],
  hotter: readonly Stretch[],
  windowMs: number,
  neededMs: number,
): PeakOutcome {
  const spells = onCreditedClock(period, hotter);
  const upTo = cumulative(spells);
  let bestMs = 0;
  let metAt = Number.POSITIVE_INFINITY;
  for (const spell of spells) {
    bestMs = Math.max(bestMs, upTo(spell.from + windowMs) - upTo(spell.from));
    const endingHere = upTo(spell.to) - upTo(spell.to - windowMs);
    bestMs = Math.max(bestMs, endingHere);
    if (endingHere >= neededMs) metAt = Math.min(metAt, spell.to);
    metAt = Math.min(metAt, whenFilled(spells, spell.from, windowMs, neededMs));
  }
  return { bestMs, metAtCreditedMs: Number.isFinite(metAt) ? metAt : null };
}

function onCreditedClock(period: readonly Stretch[], hotter: readonly Stretch[]): Spell[] {
  const spells: Spell[] = [];
  let credited = 0;
  let next = 0;
  for (const stretch of period) {
    while (next < hotter.length && hotter[next]!.toMs <= stretch.fromMs) next++;
    for (; next < hotter.length && hotter[next]!.fromMs < stretch.toMs; next++) {
      const spell = hotter[next]!;
      const from = credited + Math.max(spell.fromMs, stretch.fromMs) - stretch.fromMs;
      spells.push({ from, to: credited + Math.min(spell.toMs, stretch.toMs) - stretch.fromMs });
    }
    credited += stretch.toMs - stretch.fromMs;
  }
  return spells;
}

/** A function giving the hotter time up to a moment of the credited clock. */
function cumulative(spells: readonly Spell[]): (creditedMs: number) => number {
  const before = [0];
  for (const spell of spells) before.push(before.at(-1)! + spell.to - spell.from);
  return (creditedMs) => {
    let low = 0;
    let high = spells.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (spells[middle]!.from < creditedMs) low = middle + 1;
      else high = middle;
    }
    if (low === 0) return 0;
    const last = spells[low - 1]!;
    return before[low - 1]! + Math.min(creditedMs, last.to) - last.from;
  };
}

function whenFilled(spells: readonly Spell[], from: number, windowMs: number, neededMs: number): number {
  let sum = 0;
  for (const spell of spells) {
    if (spell.to <= from) continue;
    if (spell.from >= from + windowMs) break;
    const end = spell.from + (neededMs - sum);
    if (end <= spell.to && end <= from + windowMs) return end;
    sum += spell.to - spell.from;
  }
  return Number.POSITIVE_INFINITY;
}
