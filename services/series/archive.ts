import type { ChannelName } from '../../shared/yard/yard.ts';
import type { RangeQuery, Rollup, RollupStep, StoredReading } from './port.ts';

/** What went wrong between us and the archive; each calls for another answer. */
export type ArchiveFaultKind =
  /** Nobody answers, or not in time, or not as InfluxDB would. */
  | 'away'
  /** It answers that it cannot just now (5xx, 429). */
  | 'busy'
  /** Token, user or password is wrong, or may not do this (401, 403). */
  | 'not-permitted'
  /** The database or bucket does not exist there (404). */
  | 'not-found'
  /** It will not take these lines (other 4xx). */
  | 'refused';

/** The archive did not do what was asked. The message is for people: no token, no password in it. */
export class ArchiveFault extends Error {
  override readonly name = 'ArchiveFault';
  readonly kind: ArchiveFaultKind;
  /** How long the server asked us to wait (Retry-After); null when it did not say. */
  readonly retryAfterMs: number | null;
  /** The answer did not come in time: a smaller batch may. */
  readonly tookTooLong: boolean;

  constructor(
    kind: ArchiveFaultKind,
    message: string,
    more: { readonly retryAfterMs?: number | null; readonly tookTooLong?: boolean } = {},
  ) {
    super(message);
    this.kind = kind;
    this.retryAfterMs = more.retryAfterMs ?? null;
    this.tookTooLong = more.tookTooLong ?? false;
  }
}

export interface WriteResult {
  /** Readings older than the archive's own retention: it takes the others and never will take these. */
  readonly beyondRetention: number;
}

/** A store elsewhere that holds what was forwarded to it, for longer than the local one. */
export interface Archive {
  /** Where it is, for people: host, database. */
  readonly place: string;
  /**
   * Writes a batch and resolves on this batch's own success only. Writing a reading again changes nothing.
   * @throws ArchiveFault; then any part of the batch may or may not have arrived.
   */
  write(readings: readonly StoredReading[], signal?: AbortSignal): Promise<WriteResult>;
  /** As `SeriesStore.range`, of what was forwarded. */
  range(query: RangeQuery): Promise<StoredReading[]>;
  /** As `SeriesStore.rollups`, computed from the raw readings that are there. */
  rollups(channel: ChannelName, step: RollupStep, fromMs: number, toMs: number): Promise<Rollup[]>;
  /** True when it holds at least one reading. */
  holdsReadings(): Promise<boolean>;
  /** Removes raw readings of these channels older than a time; returns how many. */
  removeBefore(channels: readonly ChannelName[], beforeMs: number): Promise<number>;
}
