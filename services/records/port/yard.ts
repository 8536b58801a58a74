import type { PileStatus } from '../../../shared/rules/status.ts';
import type { JournalEntry, JournalKind, PhotoSize } from '../../../shared/yard/journal.ts';
import type { ChannelName, Pile, PileId, Placement, Yard, YardId } from '../../../shared/yard/yard.ts';

export interface YardStore {
  list(): Promise<Yard[]>;
  get(id: YardId): Promise<Yard | null>;
  create(yard: Omit<Yard, 'id'> & { readonly id?: YardId }): Promise<Yard>;
  update(id: YardId, change: Partial<Omit<Yard, 'id'>>): Promise<Yard>;
}

export interface PileStore {
  /** Piles of a yard; `openAt` keeps those not ended at that time. */
  list(yardId: YardId, filter?: { readonly openAtMs?: number }): Promise<Pile[]>;
  get(id: PileId): Promise<Pile | null>;
  create(pile: Omit<Pile, 'id' | 'endedMs'> & { readonly id?: PileId }): Promise<Pile>;
  update(
    id: PileId,
    change: Partial<Pick<Pile, 'name' | 'place' | 'method' | 'startedMs' | 'build'>>,
  ): Promise<Pile>;
  end(id: PileId, endedMs: number): Promise<Pile>;
}

export interface PlacementStore {
  list(yardId: YardId): Promise<Placement[]>;
  forPile(pileId: PileId): Promise<Placement[]>;
  /** Refuses (RecordsError on `fromMs`) a channel placed twice at one time: end the old placement first. */
  create(placement: Omit<Placement, 'id'>): Promise<Placement>;
  /** `toMs` may be the placement's own start, which takes it back; RecordsError on `toMs` when earlier. */
  end(id: string, toMs: number): Promise<Placement>;
}

/** Overrides by condition: only what differs from the method's defaults, e.g. `{ 'too-hot-ceiling': { limitCelsius: 68 } }`. */
export type LimitOverrides = Readonly<Record<string, Readonly<Record<string, number | boolean | null>>>>;

export interface LimitsVersion {
  readonly pileId: PileId;
  /** 0 = the method's defaults, never changed. */
  readonly version: number;
  readonly overrides: LimitOverrides;
  readonly reason: string;
  readonly by: string | null;
  readonly savedMs: number;
}

export interface LimitsStore {
  /** The saved version with the highest number, else version 0 as of the pile's start. */
  current(pileId: PileId): Promise<LimitsVersion>;
  /** The same of every pile of the yard for which any have been saved. */
  forYard(yardId: YardId): Promise<LimitsVersion[]>;
  /** Saved versions, newest first. */
  history(pileId: PileId): Promise<LimitsVersion[]>;
  /** Saves the next version; `expectedVersion` guards against two people tuning at once (VersionConflict). */
  save(change: Omit<LimitsVersion, 'version'> & { readonly expectedVersion: number }): Promise<LimitsVersion>;
}

export interface JournalStore {
  /** Oldest first; `fromMs` inclusive, `toMs` exclusive. */
  list(pileId: PileId, range?: { readonly fromMs?: number; readonly toMs?: number }): Promise<JournalEntry[]>;
  /** Of all the yard's piles, in the same order; `kinds` leaves out all others. */
  forYard(
    yardId: YardId,
    filter?: {
      readonly fromMs?: number;
      /** Written down from then on, whenever it was done. */
      readonly recordedFromMs?: number;
      readonly kinds?: readonly JournalKind[];
    },
  ): Promise<JournalEntry[]>;
  /** Null when there is no such entry, or it was taken back. */
  get(id: string): Promise<JournalEntry | null>;
  /** A press that was sent before, known by its key, changes nothing: what it made then comes back. */
  add(entry: NewJournalRow): Promise<JournalEntry>;
  /** Marks an entry as pressed by mistake: it stays stored and is listed no more. RecordsError on `entryId`. */
  takeBack(id: string, takenBackMs: number): Promise<JournalEntry>;
  /** The first photo of an entry stays; sending it again changes nothing. RecordsError on `entryId`. */
  savePhoto(entryId: string, photo: StoredPhoto): Promise<JournalEntry>;
  /** JPEG bytes; null where the entry has none. */
  photo(entryId: string): Promise<Uint8Array | null>;
}

export type NewJournalRow = Omit<JournalEntry, 'id' | 'photo'> & {
  /** Made by the phone for one press of a button; the same key for the same pile is the same press. */
  readonly pressKey?: string | null;
};

export interface StoredPhoto extends PhotoSize {
  readonly jpeg: Uint8Array;
}

/** How a pile was planned: shape, channels, mix and expected course, as the planner wrote it. */
export interface DesignStore {
  get(pileId: PileId): Promise<string | null>;
  /** Replaces an earlier one. RecordsError on `pileId`. */
  save(pileId: PileId, design: string, savedMs: number): Promise<void>;
}

export interface StatusStore {
  save(status: PileStatus): Promise<void>;
  forYard(yardId: YardId): Promise<PileStatus[]>;
}

/** A channel's linear calibration: value = raw x gain + offset, in canonical units. */
export interface Calibration {
  readonly channel: ChannelName;
  readonly gain: number;
  readonly offset: number;
  readonly calibratedMs: number;
  /** When it should be checked again; null = never reminds. */
  readonly dueMs: number | null;
}
