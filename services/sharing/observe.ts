/**
 * For how long a counter has been seen to stand still, by this process's own steady clock: no clock of another machine
 * has to be right, and none can be set so that a living process looks dead.
 */
export interface Observer {
  /** Notes what every counter reads now. A long break between two looks (the database was away) starts all anew. */
  look(counters: ReadonlyMap<string, number>, atMs: number): void;
  /** How long this one has not moved; 0 when it was not seen in the last look. */
  stillMs(name: string, atMs: number): number;
}

export function createObserver(longestBreakMs: number): Observer {
  let seen = new Map<string, { readonly value: number; readonly sinceMs: number }>();
  let lookedMs = Number.NEGATIVE_INFINITY;
  return {
    look(counters, atMs) {
      const isBroken = atMs - lookedMs > longestBreakMs;
      lookedMs = atMs;
      const before = seen;
      seen = new Map();
      for (const [name, value] of counters) {
        const known = before.get(name);
        const isStill = !isBroken && known?.value === value;
        seen.set(name, isStill ? known : { value, sinceMs: atMs });
      }
    },
    stillMs(name, atMs) {
      const known = seen.get(name);
      return known === undefined ? 0 : atMs - known.sinceMs;
    },
  };
}
