import { judgeFinished } from '../compost/stability/finished.ts';
import { addWormsAtOrBelowCelsius } from '../compost/stability/worms.ts';
import { rateChange } from '../statistics/changePoint.ts';
import type { JournalEntry } from '../yard/journal.ts';
import type { PileMethod } from '../yard/method.ts';
import { isFireDanger } from './advice.ts';
import { noteStart } from './milestoneNote.ts';
import type { PileView } from './pileView.ts';

/** Things worth knowing once in a pile's life; nobody has to answer, so they are no alarms. */
export const milestoneIds = [
  'record-complete',
  'pull-channels',
  'cool-enough-for-worms',
  'ready-for-curing',
  'likely-finished',
] as const;
export type MilestoneId = (typeof milestoneIds)[number];

export interface MilestoneWords {
  readonly title: string;
  /** What to do next, safe to follow as it stands; the two together fit one text. */
  readonly nextStep: string;
}

export const milestoneWords: Readonly<Record<MilestoneId, MilestoneWords>> = {
  'record-complete': {
    title: 'sanitisation record complete',
    nextStep: 'Print it from the pile page; it shows heat and time, not a test of the compost.',
  },
  'pull-channels': {
    title: 'time to pull the air channels',
    nextStep: 'Pull one gently: if the hole stands open, pull the rest; mind steam. Log it.',
  },
  'cool-enough-for-worms': {
    title: 'cool enough for worms',
    nextStep: 'Check it is moist, add them on top, log it; then keep it wet.',
  },
  'ready-for-curing': {
    title: 'ready for curing',
    nextStep: 'It no longer heats up again: build it into a curing heap, keep it moist.',
  },
  'likely-finished': {
    title: 'likely finished',
    nextStep: 'Look and smell: dark, crumbly, earthy. Have it tested before selling.',
  },
};

/** Words for a cage's core record, which says nothing of its outside. */
const coreRecordWords: MilestoneWords = {
  title: 'core record complete, core only',
  nextStep: 'The core held its heat; nothing shows that the outside did. Treat that as raw.',
};

export function wordsOfMilestone(id: MilestoneId, view: PileView): MilestoneWords {
  const isCoreOnly = id === 'record-complete' && view.sanitisation?.outcome !== 'consistent';
  return isCoreOnly ? coreRecordWords : milestoneWords[id];
}

const titles: readonly (readonly [string, MilestoneId])[] = [
  ...milestoneIds.map((id) => [milestoneWords[id].title, id] as const),
  [coreRecordWords.title, 'record-complete'],
];

/** The note that keeps a milestone in the journal: there it is seen, and there it is known to have been told. */
export function noteOfMilestone({ title, nextStep }: MilestoneWords): string {
  return `${noteStart}${title}. ${nextStep}`;
}

/** Milestones a pile's journal says were reached. */
export function milestonesIn(journal: readonly JournalEntry[]): Set<MilestoneId> {
  const notes = journal.filter(
    ({ kind, by, note }) => kind === 'note' && by === null && note.startsWith(noteStart),
  );
  return new Set(
    notes.flatMap(({ note }) =>
      titles.filter(([title]) => note.startsWith(`${noteStart}${title}.`)).map(([, id]) => id),
    ),
  );
}

/**
 * Milestones that hold now. `levelMetres` are daily heights of the pile's surface since it was built, where somebody or
 * something measures them: then its settling decides about the channels, else its age.
 */
export function milestonesOf(view: PileView, levelMetres: readonly number[] = []): MilestoneId[] {
  const holds: Readonly<Record<MilestoneId, boolean>> = {
    'record-complete': view.sanitisation?.recordAtMs != null,
    'pull-channels': isTimeToPull(view, levelMetres),
    'cool-enough-for-worms': isCoolEnough(view),
    'ready-for-curing': isReadyForCuring(view),
    'likely-finished': isLikelyFinished(view),
  };
  return milestoneIds.filter((id) => holds[id]);
}

/** Settling is over one to two weeks after filling; the instructions' 24 h is from memory (common practice, no source). */
const settledAfterDays = 10;
/** Settling has ended when it goes on at less than this share of its first pace (our choice). */
const endedShare = 0.25;
/** Hotter than this nobody should reach into it for that. */
const steamyCelsius = 60;

function isTimeToPull(view: PileView, levelMetres: readonly number[]): boolean {
  if (view.pile.method !== 'static-cage' || view.lastEntry(['channels-pulled']) !== null) return false;
  if (view.hotCelsius === null || view.hotCelsius >= steamyCelsius || isFireDanger(view)) return false;
  if (view.firstAt40Ms === null) return false;
  const change =
    levelMetres.length >= settledAfterDays ? rateChange(levelMetres, { resolution: 0.01 }) : null;
  if (change !== null) return change.before < 0 && change.after > change.before * endedShare;
  return view.ageHours >= settledAfterDays * 24;
}

/** A whole day at or below 27 C, after its heat: an afternoon's shade is not it. */
function isCoolEnough(view: PileView): boolean {
  const worms: readonly PileMethod[] = ['static-cage'];
  if (!worms.includes(view.pile.method) || view.hasWorms || view.firstAt40Ms === null) return false;
  if (view.coreCertainty !== 'measured' || view.nowMs - (view.lastAt45Ms ?? view.firstAt40Ms) < 3 * dayMs)
    return false;
  const highest = view.highestCoreSince(view.nowMs - dayMs);
  return highest !== null && view.meanCoreCelsius(1) !== null && highest <= addWormsAtOrBelowCelsius;
}

const dayMs = 86_400_000;
const curable: readonly PileMethod[] = ['hot-bin', 'turned-windrow', 'aerated-static-pile'];

/** The stage machine has seen it stay below 45 C, tested by a turn or watering or for three weeks. */
function isReadyForCuring(view: PileView): boolean {
  if (!curable.includes(view.pile.method) || view.lastAt45Ms === null) return false;
  return view.stage === 'curing' && view.coreCertainty === 'measured';
}

function isLikelyFinished(view: PileView): boolean {
  const [core, air] = [view.meanCoreCelsius(3), view.meanAirCelsius(3)];
  if (core === null || air === null) return false;
  const disturbed = view.lastEntry(['turned', 'watered']);
  const sinceDisturbed = disturbed === null ? null : view.highestCoreSince(disturbed.timeMs);
  const judgement = judgeFinished({
    method: view.pile.method,
    ageDays: view.ageHours / 24,
    coreMeanCelsius: core,
    airMeanCelsius: air,
    peakRiseSinceDisturbedCelsius: sinceDisturbed === null ? null : sinceDisturbed - air,
    daysSinceDisturbed: disturbed === null ? null : (view.nowMs - disturbed.timeMs) / dayMs,
    daysSinceHot: view.lastAt45Ms === null ? null : (view.nowMs - view.lastAt45Ms) / dayMs,
    moistureFraction: view.moistureFraction,
  });
  return judgement.verdict === 'may be done';
}
