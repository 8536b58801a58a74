import { rewind } from '../../shared/rules/assess.ts';
import type { Standing, Subject } from '../../shared/rules/subject.ts';
import type { SeriesStore } from '../series/port.ts';
import { keepWaiting, type PileDesk, takenHands } from './pileDesk.ts';
import { rebuildPile } from './pileHistory.ts';
import type { ProbeDesk } from './probeDesk.ts';

interface TurnBack {
  readonly toMs: number;
  readonly nowMs: number;
  readonly sequence: number;
}

/** Longest a text may still wait when the times it was counted from turn out to lie in the future. */
const longestWaitMs = 3_600_000;

/** Judgement stands at a time that has not come yet: the clock was ahead, and has been set back. */
export function isAhead({ trail, toldUntilMs }: Standing, toMs: number): boolean {
  return toldUntilMs > toMs + longestWaitMs || trail.entries.at(-1)!.atMs > toMs + longestWaitMs;
}

/**
 * Takes back what was judged of times that have not come. What people were told of them is settled at the next pass:
 * what does not hold by the right time is told to be over.
 */
export function turnBack<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  { toMs, nowMs }: TurnBack,
): void {
  // Everything up to then has been judged: it goes on from there.
  rewind(subject, toMs + 1, toMs);
  subject.toldUntilMs = Math.min(subject.toldUntilMs, toMs);
  for (const [condition, atMs] of subject.lastTextMs)
    subject.lastTextMs.set(condition, Math.min(atMs, nowMs));
  for (const [condition, due] of subject.textsDue)
    subject.textsDue.set(condition, { ...due, dueMs: Math.min(due.dueMs, nowMs + longestWaitMs) });
}

/** The same for a pile; readings stamped by the wrong clock wait for the time they claim. */
export async function turnBackPile(desk: PileDesk, series: SeriesStore, until: TurnBack): Promise<void> {
  const { pile } = desk;
  if (pile.window.lastSampleMs > until.toMs) {
    const { facts } = pile.window;
    const rebuilt = { ...until, beforeMs: until.toMs + 1, hands: takenHands(desk) };
    keepWaiting(desk, await rebuildPile(pile, facts, series, rebuilt), until.toMs);
  }
  turnBack(pile.subject, until);
}

/** The same for a probe: it was heard, but no later than now. */
export function turnBackProbe(desk: ProbeDesk, until: TurnBack): void {
  const { view } = desk.probe.window;
  view.lastHeardMs = Math.min(view.lastHeardMs, until.toMs);
  desk.heardMs = Math.min(desk.heardMs, until.nowMs);
  for (const channel of view.channels.values()) {
    channel.lastMs = Math.min(channel.lastMs, until.toMs);
    channel.lastGoodMs = Math.min(channel.lastGoodMs, until.toMs);
  }
  turnBack(desk.probe.subject, until);
}

/**
 * Silence counts from when somebody could have heard: after the service was away, or the machine slept. What was silent
 * before stays so.
 */
export function doubtSilence(desk: ProbeDesk, sinceMs: number): void {
  const { view } = desk.probe.window;
  if (!Number.isFinite(view.lastHeardMs)) return;
  view.lastHeardMs = Math.max(view.lastHeardMs, sinceMs);
  desk.heardMs = Math.max(desk.heardMs, sinceMs);
}
