import type { ChannelsTold } from '../notify/port.ts';
import type { LeaseGrant } from '../records/port.ts';
import type { LiveChange } from '../web/port.ts';

/**
 * What one service tells the others has happened. It makes them look at once; whoever hears nothing still looks now and
 * then, so a change that is lost costs seconds and nothing else.
 */
export type Change =
  /** New readings are in the store. */
  | { readonly kind: 'readings-stored' }
  /** The outbox has new rows. */
  | { readonly kind: 'messages-written' }
  /** Open screens should look at these again. */
  | { readonly kind: 'screens'; readonly changes: readonly LiveChange[] }
  /**
   * A person changed what others keep in memory: a pile's placements, journal or limits, or (without a pile) the yard, its
   * people or probes. With a probe: its credential was made, replaced or revoked.
   */
  | { readonly kind: 'facts'; readonly pileId?: string; readonly probeId?: string }
  /** A person's deed waits for whoever judges the yard, or was done. */
  | { readonly kind: 'deeds' }
  /** Changes of other processes may have passed unheard: look at everything. */
  | { readonly kind: 'missed' };

export type ChangeKind = Change['kind'];
export type ChangeOf<Kind extends ChangeKind> = Extract<Change, { readonly kind: Kind }>;

/** How services hear of each other, in this process and in others. */
export interface ChangeBus {
  /** Never throws and never waits; listeners here are called in this turn, those elsewhere soon after. */
  tell(change: Change): void;
  listen<Kind extends ChangeKind>(kind: Kind, listener: (change: ChangeOf<Kind>) => void): void;
  /** False while other processes cannot be heard; `missed` is then told now and then instead. */
  isConnected(): boolean;
  close(): Promise<void>;
}

/** A kind of work of which each piece is done by one process at a time. */
export interface SharedWork {
  /** First part of its leases' names: `rules`, `duty`... */
  readonly kind: string;
  /** The pieces there are now, e.g. yards. */
  readonly pieces: () => Promise<readonly string[]>;
  /** Leaves off with a piece that is to be handed to another process: resolves when nothing is half done. */
  readonly leave?: (piece: string) => Promise<void>;
  /** What is held has changed. */
  readonly onChanged?: () => void;
}

/** The pieces of one kind of work that are this process's. */
export interface Share {
  /** Whether a piece is held; what is stored is checked against the grant, so this may be a little behind. */
  has(piece: string): boolean;
  /** The right to work on a piece, to be checked with what is stored; null where nobody else could hold it. */
  grantOf(piece: string): LeaseGrant | null;
  /** Whether the piece is ours beyond doubt: renewed so lately that nobody can have taken it. */
  isOurs(piece: string): boolean;
  held(): readonly string[];
  /** It was refused: somebody else has taken the piece. */
  lost(piece: string): void;
}

/** One process is the whole yard: everything is its own. */
export const everything: Share = {
  has: () => true,
  grantOf: () => null,
  isOurs: () => true,
  held: () => [],
  lost: () => {},
};

/** How a process stands, told to the others with each sign of life. */
export interface ProcessStanding {
  readonly services: readonly string[];
  /** Whether readings can come in here; null where none are taken in. */
  readonly isBrokerConnected: boolean | null;
  /** Whether InfluxDB gets what is stored, where this process forwards; else null. */
  readonly isForwarding: boolean | null;
  /** How much of the space given to the local store is used, where this process forwards; else null. */
  readonly localSpaceUsedFraction: number | null;
  /** How messages leave, where this process sends them; else null. */
  readonly channels: ChannelsTold | null;
}

/** Shares work out among the processes of a yard, and takes over from those that die. */
export interface WorkSharing {
  /** This process among them. */
  readonly processId: string;
  share(work: SharedWork): Share;
  /** Processes heard from lately, this one among them. */
  processes(): readonly ProcessStanding[];
  /** Hands everything back. */
  stop(): Promise<void>;
}
