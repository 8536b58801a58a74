import type { Stage } from '../yard/yard.ts';
import type { PileView } from './pileView.ts';

/** Days below 45 C after which a pile that was hot counts as curing (after AgriFutures: it stays below 45 C). */
const curingAfterDays = 21;

/**
 * Stage of a pile from its core and age: a plain first version until the stage library of shared/compost takes over.
 * Hot begins at 45 C (curing is said to start below it). Null when the core has never been known.
 */
export function stageOf(view: Omit<PileView, 'stage'>): Stage | null {
  if (view.lastEntry(['finished']) !== null) return 'finished';
  if (view.pile.method === 'curing-heap') return 'curing';
  if (view.coreCelsius === null || view.peakCelsius === null) return null;
  if (view.coreCelsius >= 45) return 'hot';
  if (view.lastAt45Ms === null) return view.coreCelsius < 30 ? 'lag' : 'heating';
  return view.nowMs - view.lastAt45Ms > curingAfterDays * 86_400_000 ? 'curing' : 'cooling';
}
