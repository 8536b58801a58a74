import { z } from 'zod';
import { explain } from '../../shared/diagnosis/explain.ts';
import { factsFromWindow } from '../../shared/diagnosis/facts/fromWindow.ts';
import { advance, rewind } from '../../shared/rules/assess.ts';
import { type HandSample, handSamples } from '../../shared/rules/byHand.ts';
import {
  createPileSubject,
  type PileLimits,
  type PileSample,
  type PileSubject,
  pileRules,
} from '../../shared/rules/pileSubject.ts';
import type { PileView } from '../../shared/rules/pileView.ts';
import { addSample, atInstant, type PileFacts, setFacts } from '../../shared/rules/pileWindow.ts';
import type { PileStatus } from '../../shared/rules/status.ts';
import { statusOf } from '../../shared/rules/statusOf.ts';
import type { TimeGrid } from '../../shared/rules/timeGrid.ts';
import { trailDays } from '../../shared/rules/timerTrail.ts';
import type { PileId } from '../../shared/yard/yard.ts';
import type { SeriesStore } from '../series/port.ts';
import { addChanges, type Desk, deskOf } from './desk.ts';
import { MilestoneDesk, type MilestoneStep } from './milestoneDesk.ts';
import { rebuildPile } from './pileHistory.ts';
import type { TextContext } from './texts.ts';

/** A sample that waits for its stretch of time to be complete. */
export interface PendingSample extends PileSample {
  /** Null: not waited for by the place in the stream, because a restart finds it by itself. */
  readonly sequence: number | null;
  /** Journal entry it was written in, of a reading by hand. */
  readonly entryId?: string;
}

export interface PileDesk extends Desk {
  readonly pile: PileSubject;
  pending: PendingSample[];
  /** When its status was last made for storing. */
  statusMs: number;
  /** Judged again since then. */
  hasNews: boolean;
  /** Journal entries whose readings by hand have been judged; what the mark says of them is older when `handsNew`. */
  handsTaken: ReadonlySet<string>;
  handsNew: boolean;
  readonly milestones: MilestoneDesk;
}

const handsSchema = z.array(z.string());

/** Name of the mark that keeps which readings by hand have been judged. */
export const handsMarkOf = (pileId: PileId): string => `rules:hand:${pileId}`;

/** A pile's desk with an empty window. Throws LimitError when a limit is not allowed. */
export function createPileDesk(
  facts: PileFacts,
  limits: PileLimits,
  yardAir: TimeGrid | null = null,
): PileDesk {
  const pile = createPileSubject(facts, limits, yardAir);
  const where = () => {
    const { id, name, place } = pile.window.facts.pile;
    return { name, place, pileId: id };
  };
  return Object.assign(deskOf(pile.subject, where), {
    pile,
    explain: explainer(pile),
    pending: [],
    statusMs: Number.NEGATIVE_INFINITY,
    hasNews: true,
    handsTaken: noHands,
    handsNew: false,
    milestones: new MilestoneDesk(facts.journal),
  });
}

/**
 * Takes over which readings by hand were judged before a restart. Where nothing is known, old ones count as judged: they
 * belong in the window, but nobody is to be told of them now.
 */
export function restoreHands(desk: PileDesk, stored: string | null, toMs: number): void {
  const ids = stored === null ? null : handsSchema.parse(JSON.parse(stored));
  const oldMs = toMs - trailDays * 86_400_000;
  const judged = handSamples(desk.pile.window.facts).filter(({ entryId, timeMs }) =>
    ids === null ? timeMs < oldMs : ids.includes(entryId),
  );
  if (judged.length > 0) desk.handsTaken = new Set(judged.map(({ entryId }) => entryId));
}

const noHands: ReadonlySet<string> = new Set();

/** Puts readings by hand that are new in the journal where samples wait. */
export function findHands(desk: PileDesk): void {
  const { facts } = desk.pile.window;
  for (const sample of handSamples(facts)) {
    const isWaiting = desk.pending.some(({ entryId }) => entryId === sample.entryId);
    if (!isWaiting && !desk.handsTaken.has(sample.entryId)) desk.pending.push({ ...sample, sequence: null });
  }
}

/** Readings by hand that have been judged, for a window that is built again. */
export function takenHands(desk: PileDesk, facts: PileFacts = desk.pile.window.facts): HandSample[] {
  return handSamples(facts).filter(({ entryId }) => desk.handsTaken.has(entryId));
}

/** A fire alarm that somebody still has to look at counts as fire, whatever the probes say by now. */
function explainer(pile: PileSubject): Desk['explain'] {
  return (condition, unit) => {
    const fire = pile.subject.alarms.get('too-hot-fire-danger');
    // The window is another one after late readings: it must be looked up each time.
    return explain(
      condition,
      factsFromWindow(pile.window),
      fire !== undefined && fire.state !== 'normal',
      unit,
    );
  };
}

/** Takes changed facts and limits. Throws LimitError and changes nothing when a limit is not allowed. */
export function setPileFacts(desk: PileDesk, facts: PileFacts, limits: PileLimits): void {
  desk.pile.subject.rules = pileRules(facts, limits);
  desk.pile.subject.limitsVersion = limits.version;
  setFacts(desk.pile.window, facts);
  desk.milestones.learn(facts.journal);
  desk.hasNews = true;
}

/**
 * Judges a pile up to an instant with the samples that wait. Late ones, older than what was judged already, send
 * judgement back to where they belong: by the timers alone when the window has nothing newer, else by building the
 * window again from the store. So do those that roll-ups in the window hold already: a long backlog after a restart.
 */
export async function advancePile(
  desk: PileDesk,
  series: SeriesStore,
  until: { readonly toMs: number; readonly nowMs: number; readonly sequence: number },
): Promise<void> {
  const ready = takeReady(desk, until.toMs);
  if (ready.length === 0 && desk.nextTickMs() > until.toMs) return;
  const samples = await catchUp(desk, series, ready, until);
  addChanges(desk, advance(desk.pile.subject, samples, until.toMs, until.nowMs));
  if (ready.length > 0) desk.hasNews = true;
}

/** The status for screens. */
export function pileStatus(desk: PileDesk): PileStatus {
  return statusOf(viewNow(desk));
}

/** Milestones reached since they were last looked for. */
export function pileMilestones(desk: PileDesk, context: TextContext): MilestoneStep {
  return desk.milestones.look(viewNow(desk), context);
}

function viewNow({ pile }: PileDesk): PileView {
  return atInstant(pile.window, Math.max(pile.subject.lastInstantMs, pile.subject.toldUntilMs));
}

function takeReady(desk: PileDesk, toMs: number): PileSample[] {
  if (desk.pending.length === 0) return [];
  const ready = desk.pending.filter((sample) => sample.timeMs <= toMs);
  desk.pending = desk.pending.filter((sample) => sample.timeMs > toMs);
  for (const { entryId } of ready) {
    if (entryId === undefined) continue;
    desk.handsTaken = new Set([...desk.handsTaken, entryId]);
    desk.handsNew = true;
  }
  return ready.sort((a, b) => a.timeMs - b.timeMs);
}

async function catchUp(
  desk: PileDesk,
  series: SeriesStore,
  ready: readonly PileSample[],
  until: { readonly toMs: number; readonly nowMs: number; readonly sequence: number },
): Promise<readonly PileSample[]> {
  const { pile } = desk;
  const own = ready.filter((sample) => !isLateYardAir(pile, sample));
  const firstMs = own[0]?.timeMs ?? Number.POSITIVE_INFINITY;
  const { lastSampleMs, pastUntilMs } = pile.window;
  if (firstMs > lastSampleMs && firstMs >= pastUntilMs) {
    if (firstMs <= pile.subject.lastInstantMs) rewind(pile.subject, firstMs, pile.window.lastSampleMs);
    return own;
  }
  const { facts } = pile.window;
  const hands = takenHands(desk);
  const later = await rebuildPile(pile, facts, series, { ...until, beforeMs: firstMs, hands });
  rewind(pile.subject, firstMs, pile.window.lastSampleMs);
  keepWaiting(desk, later, until.toMs);
  return later.filter((sample) => sample.timeMs <= until.toMs);
}

/** What was measured later than is to be judged waits for its time: the clock may have gone back. */
export function keepWaiting(desk: PileDesk, later: readonly PileSample[], toMs: number): void {
  const isWaiting = (sample: PileSample) =>
    desk.pending.some(
      ({ placementId, timeMs }) => placementId === sample.placementId && timeMs === sample.timeMs,
    );
  for (const sample of later)
    if (sample.timeMs > toMs && !isWaiting(sample)) desk.pending.push({ ...sample, sequence: null });
}

/** The yard's air stands behind every pile: late, it is taken as it comes rather than judging the whole yard again. */
function isLateYardAir(pile: PileSubject, sample: PileSample): boolean {
  if (sample.timeMs > pile.subject.lastInstantMs) return false;
  const track = pile.window.tracks.get(sample.placementId);
  if (track?.placed.placement.pileId !== null) return false;
  const { lastSampleMs } = pile.window;
  addSample(pile.window, sample.placementId, sample);
  pile.window.lastSampleMs = lastSampleMs;
  return true;
}
