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
      readonly quarantined: number;
    }
  | { readonly kind: 'quarantined'; readonly reason: string };

/** What the broker hands messages to. */
export interface IngestPort {
  /**
   * Resolves when the message is durable (its readings committed, or its payload in quarantine): only then may it be
   * acknowledged. Rejects on a storage fault: then it must not be acknowledged, so that the sender keeps it.
   */
  accept(message: IncomingMessage): Promise<AcceptOutcome>;
}
