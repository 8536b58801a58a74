import { explain } from '../../shared/diagnosis/explain.ts';
import { factsFromWindow } from '../../shared/diagnosis/facts/fromWindow.ts';
import { advance, rewind } from '../../shared/rules/assess.ts';
import {
  createPileSubject,
  type PileLimits,
  type PileSample,
  type PileSubject,
  pileRules,
} from '../../shared/rules/pileSubject.ts';
import { addSample, atInstant, type PileFacts, setFacts } from '../../shared/rules/pileWindow.ts';
import type { PileStatus } from '../../shared/rules/status.ts';
import { statusOf } from '../../shared/rules/statusOf.ts';
import type { SeriesStore } from '../series/port.ts';
import { addChanges, type Desk, deskOf } from './desk.ts';
import { rebuildPile } from './pileHistory.ts';

/** A sample that waits for its stretch of time to be complete. */
export interface PendingSample extends PileSample {
  readonly sequence: number;
}

export interface PileDesk extends Desk {
  readonly pile: PileSubject;
  pending: PendingSample[];
  /** When its status was last made for storing. */
  statusMs: number;
  /** Judged again since then. */
  hasNews: boolean;
}

/** A pile's desk with an empty window. Throws LimitError when a limit is not allowed. */
export function createPileDesk(facts: PileFacts, limits: PileLimits): PileDesk {
  const pile = createPileSubject(facts, limits);
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
  });
}

/** A fire alarm that somebody still has to look at counts as fire, whatever the probes say by now. */
function explainer({ window, subject }: PileSubject): Desk['explain'] {
  return (condition, unit) => {
    const fire = subject.alarms.get('too-hot-fire-danger');
    return explain(condition, factsFromWindow(window), fire !== undefined && fire.state !== 'normal', unit);
  };
}

/** Takes changed facts and limits. Throws LimitError and changes nothing when a limit is not allowed. */
export function setPileFacts(desk: PileDesk, facts: PileFacts, limits: PileLimits): void {
  desk.pile.subject.rules = pileRules(facts, limits);
  desk.pile.subject.limitsVersion = limits.version;
  setFacts(desk.pile.window, facts);
  desk.hasNews = true;
}

/**
 * Judges a pile up to an instant with the samples that wait. Late ones, older than what was judged already, send
 * judgement back to where they belong: by the timers alone when the window has nothing newer, else by building the
 * window again from the store.
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
  const { pile } = desk;
  const nowMs = Math.max(pile.subject.lastInstantMs, pile.subject.toldUntilMs);
  return statusOf(atInstant(pile.window, nowMs));
}

function takeReady(desk: PileDesk, toMs: number): PileSample[] {
  if (desk.pending.length === 0) return [];
  const ready = desk.pending.filter((sample) => sample.timeMs <= toMs);
  desk.pending = desk.pending.filter((sample) => sample.timeMs > toMs);
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
  if (firstMs > pile.window.lastSampleMs) {
    if (firstMs <= pile.subject.lastInstantMs) rewind(pile.subject, firstMs, pile.window.lastSampleMs);
    return own;
  }
  const { facts } = pile.window;
  const later = await rebuildPile(pile, facts, series, { ...until, beforeMs: firstMs });
  rewind(pile.subject, firstMs, pile.window.lastSampleMs);
  return later.filter((sample) => sample.timeMs <= until.toMs);
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
