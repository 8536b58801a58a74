import type { ChannelName, Quantity } from '../../shared/yard/yard.ts';

/** One MQTT message as it came in, before anything is believed about it. */
export interface IncomingMessage {
  readonly topic: string;
  readonly payload: Uint8Array;
  /** Probe that signed in to the embedded broker; null when the broker is external and vouches by topic only. */
  readonly signedInProbe: string | null;
  readonly receivedMs: number;
  /** A retained message may be of any age and is never taken as just measured. */
  readonly retained: boolean;
}

export type AcceptOutcome =
  | {
      readonly kind: 'stored';
      readonly stored: number;
      readonly duplicates: number;
      /** Records of the message that were refused; the message is in quarantine with the reasons. */
      readonly quarantined: number;
    }
  | { readonly kind: 'quarantined'; readonly reason: string };

/** A message turned away at the door, before it was read. */
export interface TurnedAway {
  /** Empty when it was turned away before its topic was read. */
  readonly topic: string;
  readonly probe: string | null;
  readonly reason: string;
  readonly payloadStart: Uint8Array;
  readonly payloadBytes: number;
}

/** What the broker hands messages to. */
export interface IngestPort {
  /**
   * Resolves when the message is durable (its readings committed, or its payload in quarantine): only then may it be
   * acknowledged. Rejects on a storage fault: then it must not be acknowledged, so that the sender keeps it.
   * Answers come in the order of the calls, so acknowledging as they come keeps the order MQTT asks for.
   */
  accept(message: IncomingMessage): Promise<AcceptOutcome>;
  /** Keeps a message that was refused unread, for a person to look at. Resolves when it is kept; never rejects. */
  turnAway(message: TurnedAway): Promise<void>;
}

/** How a probe last spoke, since the start of this process. */
export interface ProbeContact {
  readonly receivedMs: number;
  /** Time of the newest reading of its last message less the time it came: above 0 its clock is ahead of ours. */
  readonly clockAheadMs: number;
  /** What each channel measures, by the unit it sends. */
  readonly quantities: ReadonlyMap<ChannelName, Quantity>;
}

/** Counts since the start, and how ingest stands now. */
export interface IngestStatistics {
  readonly messages: number;
  readonly readingsStored: number;
  readonly duplicates: number;
  readonly readingsBad: number;
  readonly readingsSuspect: number;
  /** Messages put in quarantine, wholly or in part, or turned away; also those not kept because their sender floods. */
  readonly quarantined: number;
  /** Records that are no measurement (texts, switches, bytes). */
  readonly recordsIgnored: number;
  /** Messages that could not be stored and were not acknowledged. */
  readonly storageFaults: number;
  /** Commits in a row, up to now, that did not store everything; 0 when the last one did. */
  readonly failedCommitsInRow: number;
  readonly commits: number;
  readonly lastCommitMilliseconds: number | null;
  readonly lastStoredMs: number | null;
  /** Messages taken in and not yet durable. */
  readonly waiting: number;
}
