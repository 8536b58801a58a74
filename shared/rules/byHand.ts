import type { JournalEntry } from '../yard/journal.ts';
import type { Pile, Placement } from '../yard/yard.ts';
import type { PlacedChannel } from './channelTrack.ts';
import type { PileSample } from './pileSubject.ts';
import type { PileFacts } from './pileWindow.ts';

/**
 * How long what a person measured speaks for the pile. Temperature: a day and a little, so that whoever reads the dial
 * once a day, not always at the same hour, leaves no gap. Moisture changes over days. Our choice, no source.
 */
export const handAgeHours = { temperature: 26, moisture: 72 } as const;

/** Beside a probe that has been heard since, a reading by hand counts only for as long as a probe's own does. */
export const besideProbeMinutes = 60;

/** What the dial thermometers people use can show; other numbers are slips of the pen. */
const dialRange = { lowest: -30, highest: 110 } as const;

/**
 * Moisture (wet basis) by how a squeezed handful behaves: common practice, no source. The middle is judged, the band is
 * shown.
 */
export const squeezeBands = [
  { score: 1, words: 'dust', low: 0.15, middle: 0.25, high: 0.35 },
  { score: 2, words: 'crumbles', low: 0.35, middle: 0.4, high: 0.45 },
  { score: 3, words: 'holds together, no drops', low: 0.5, middle: 0.55, high: 0.6 },
  { score: 4, words: 'a drop or two', low: 0.6, middle: 0.65, high: 0.7 },
  { score: 5, words: 'drips', low: 0.7, middle: 0.75, high: 0.8 },
] as const;
export type SqueezeBand = (typeof squeezeBands)[number];

/** The band of a squeeze-test score, to the nearest whole one; null when it is no score. */
export function squeezeBand(score: number | null): SqueezeBand | null {
  return score === null ? null : (squeezeBands[Math.round(score) - 1] ?? null);
}

/** A sample that a person wrote in the journal. */
export interface HandSample extends PileSample {
  readonly entryId: string;
}

/** Readings by hand in a pile's journal, in its order. What is out of range is kept as bad, and judges nothing. */
export function handSamples({ pile, journal }: Pick<PileFacts, 'pile' | 'journal'>): HandSample[] {
  return journal.flatMap((entry) => handSample(pile, entry) ?? []);
}

function handSample(pile: Pile, { id, kind, timeMs, value }: JournalEntry): HandSample | null {
  if (kind === 'hand-reading' && value !== null) {
    const isPossible = value >= dialRange.lowest && value <= dialRange.highest;
    const quality = isPossible ? 'good' : 'bad';
    return { placementId: handIdOf(pile, 'temperature'), timeMs, value, quality, entryId: id };
  }
  const band = kind === 'squeeze-test' ? squeezeBand(value) : null;
  if (band === null) return null;
  const placementId = handIdOf(pile, 'moisture');
  return { placementId, timeMs, value: band.middle, quality: 'good', entryId: id };
}

/** The pile's facts with the channels its readings by hand go into; the same object when there are none. */
export function withHands(facts: PileFacts): PileFacts {
  const kinds = new Set(facts.journal.map(({ kind }) => kind));
  const hands = [
    ...(kinds.has('hand-reading') ? [handChannel(facts.pile, 'temperature')] : []),
    ...(kinds.has('squeeze-test') ? [handChannel(facts.pile, 'moisture')] : []),
  ];
  const others = facts.placed.filter((placed) => placed.byHand !== true);
  return hands.length === 0 ? facts : { ...facts, placed: [...others, ...hands] };
}

const handIdOf = (pile: Pile, quantity: 'temperature' | 'moisture'): string => `hand:${pile.id}:${quantity}`;

function handChannel(pile: Pile, quantity: 'temperature' | 'moisture'): PlacedChannel {
  const id = handIdOf(pile, quantity);
  const placement: Placement = {
    id,
    yardId: pile.yardId,
    pileId: pile.id,
    channel: id,
    quantity,
    position: 'core',
    depthMetres: null,
    fromMs: 0,
    toMs: null,
  };
  return { placement, maxAgeMinutes: handAgeHours[quantity] * 60, byHand: true };
}
