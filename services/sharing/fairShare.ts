import type { LeaseRow } from '../records/port.ts';

/** One kind of work as it stands, seen from one process. */
export interface Standing {
  /** Leases of the pieces there are. */
  readonly leases: readonly LeaseRow[];
  readonly holder: string;
  /** Living processes that do this kind of work, this one among them. */
  readonly workers: number;
  /** Whether the holder of a lease is taken for dead. */
  readonly isLapsed: (lease: LeaseRow) => boolean;
}

export interface Moves {
  readonly take: readonly LeaseRow[];
  /** Held by us, and another has too little. */
  readonly handBack: readonly LeaseRow[];
}

/**
 * What to take and what to hand back, so that every process comes to about the same number of pieces and none is left
 * lying. A piece is handed back only while somebody has fewer than the even share, so pieces do not wander for nothing.
 */
export function fairMoves({ leases, holder, workers, isLapsed }: Standing): Moves {
  const most = Math.ceil(leases.length / Math.max(1, workers));
  const mine = leases.filter((lease) => lease.holder === holder);
  const free = leases.filter(
    (lease) => lease.holder === null || (lease.holder !== holder && isLapsed(lease)),
  );
  return {
    take: free.slice(0, Math.max(0, most - mine.length)),
    handBack: free.length > 0 ? [] : mine.slice(most),
  };
}
