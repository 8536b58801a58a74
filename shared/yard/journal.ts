import type { PileId } from './yard.ts';

/** What people did to a pile or saw in it. */
export const journalKinds = [
  'built',
  'turned',
  'watered',
  'added',
  'opened',
  'channels-pulled',
  'worms-added',
  'covered',
  'uncovered',
  'moved',
  'probe-pulled',
  'probe-returned',
  'hand-reading',
  'squeeze-test',
  'note',
  'finished',
] as const;

export type JournalKind = (typeof journalKinds)[number];

export interface JournalEntry {
  readonly id: string;
  readonly pileId: PileId;
  readonly timeMs: number;
  readonly kind: JournalKind;
  /** Celsius for a hand reading, litres for watering, squeeze score 1 (dust) to 5 (drips); null where it has no number. */
  readonly value: number | null;
  readonly note: string;
  /** Person who wrote it; `null` when the system did. */
  readonly by: string | null;
  readonly recordedAtMs: number;
  /** How deep a hand reading was taken, where it was said. */
  readonly depthMetres?: number;
  /** There is a photo of this size. */
  readonly photo?: PhotoSize;
}

/** How large a photo is, so that a page can leave room for it. */
export interface PhotoSize {
  readonly widthPixels: number;
  readonly heightPixels: number;
}
