import type { MessageChannel } from '../../services/notify/messageChannel.ts';

/** How the other side takes the next messages. */
export type Mood = 'well' | 'busy' | 'refuses-recipient' | 'refuses-account' | 'silent' | 'breaks-off';

/** A message as the person at the other end reads it. */
export interface Arrived {
  readonly to: string;
  readonly text: string;
  /** What would let the other side tell a repetition; null where the channel has no such thing. */
  readonly key: string | null;
}

/** A channel and a stand-in that speaks the real protocol at its other end. */
export interface ChannelRig {
  readonly channel: MessageChannel;
  readonly address: string;
  /** One that no such channel can send to. */
  readonly badAddress: string;
  /** Words that must never show in a detail. */
  readonly secrets: readonly string[];
  /** False where the start-up check cannot see the other side, because each recipient has one of their own. */
  readonly checkReaches: boolean;
  /** Whether a repeated attempt carries the same key. */
  readonly carriesKey: boolean;
  arrived(): readonly Arrived[];
  setMood(mood: Mood): void;
  /** The other side is gone: no power, no network, unplugged. */
  goAway(): Promise<void>;
  comeBack(): Promise<void>;
  close(): Promise<void>;
}
