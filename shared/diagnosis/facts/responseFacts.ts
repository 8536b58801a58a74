import { reheatHours } from '../../compost/stability/curing.ts';
import type { Sample } from '../../readings/reading.ts';
import type { JournalEntry, JournalKind } from '../../yard/journal.ts';
import type { Observations } from '../observations.ts';
import type { Response } from '../tables/response.ts';
import type { DiagnosisFacts } from './facts.ts';
import { dayMs, highestOf, hourMs, lowestOf, within } from './samples.ts';

/** Watering again within this is routine: it is neither a disturbance nor a trial (judgement). */
const routineWithinMs = 3 * dayMs;
/** A response shows within four days, and work longer ago than a month says nothing of now (judgement). */
const watchedMs = 4 * dayMs;
const oldestMs = 30 * dayMs;
/** A pile that reheated longer ago than this has since had time to use up what it had (judgement). */
const reheatedWithinMs = 14 * dayMs;

const lettingAirIn: readonly JournalKind[] = ['turned', 'opened'];

/** Work that may cool a pile or wake it: routine waterings left out. In time order. */
export function workOn({ journal, nowMs }: DiagnosisFacts): JournalEntry[] {
  const past = journal.filter(({ timeMs }) => timeMs <= nowMs);
  return past.filter((entry) => isWork(entry, past));
}

function isWork(entry: JournalEntry, past: readonly JournalEntry[]): boolean {
  if (entry.kind !== 'watered') return ['turned', 'opened', 'added', 'moved'].includes(entry.kind);
  const age = (other: JournalEntry) => entry.timeMs - other.timeMs;
  return !past.some(
    (other) => other.kind === 'watered' && age(other) > hourMs && age(other) < routineWithinMs,
  );
}

/**
 * What the core did after the last turn or opening, and after the last watering that was not routine. Fresh material
 * starts the count again. Left out while it is too early to tell, or when other work followed too soon.
 */
export function responsesTo(
  facts: DiagnosisFacts,
): Pick<Observations, 'afterTurn' | 'afterWater' | 'afterBoth'> {
  const work = workOn(facts);
  const freshMs = work.findLast(({ kind }) => kind === 'added')?.timeMs ?? facts.startedMs;
  const recent = work.filter(({ timeMs }) => timeMs > Math.max(freshMs, facts.nowMs - oldestMs));
  const turn = recent.findLast(({ kind }) => lettingAirIn.includes(kind));
  const water = recent.findLast(({ kind }) => kind === 'watered');
  if (turn !== undefined && water !== undefined && Math.abs(turn.timeMs - water.timeMs) <= dayMs)
    return told('afterBoth', facts, [turn, water], recent);
  return {
    ...(turn === undefined ? {} : told('afterTurn', facts, [turn], recent)),
    ...(water === undefined ? {} : told('afterWater', facts, [water], recent)),
  };
}

function told(
  kind: 'afterTurn' | 'afterWater' | 'afterBoth',
  { core, nowMs }: DiagnosisFacts,
  trial: readonly JournalEntry[],
  work: readonly JournalEntry[],
): Observations {
  const times = trial.map(({ timeMs }) => timeMs);
  const [startMs, endMs] = [Math.min(...times), Math.max(...times)];
  const nextMs = work.find(({ timeMs }) => timeMs > endMs)?.timeMs ?? nowMs;
  const response = responseBetween(core, startMs, Math.min(nextMs, nowMs, endMs + watchedMs));
  const isOutdated = response === 'reheated' && nowMs - endMs > reheatedWithinMs;
  return response === null || isOutdated ? {} : { [kind]: response };
}

/**
 * Reheated: warm again, to what it was before or to 5 C more. Judged by the highest from three hours after; a pile that
 * has not risen counts as "no change" only after 48 h.
 */
function responseBetween(core: readonly Sample[], startMs: number, toMs: number): Response | null {
  const before = highestOf(within(core, startMs - 12 * hourMs, startMs));
  const lowest = lowestOf(within(core, startMs, Math.min(startMs + dayMs, toMs)));
  const peak = highestOf(within(core, startMs + 3 * hourMs, toMs));
  if (before === null || lowest === null || peak === null) return null;
  const isBack = peak >= 45 && peak >= lowest + 5 && peak >= before - 3;
  if (isBack || peak >= before + 5) return 'reheated';
  if (toMs - startMs < reheatHours * hourMs) return null;
  return peak >= before + 2 ? 'rose a little' : 'no change';
}
