export interface ShortCache<T> {
  get(key: string, make: () => Promise<T>): Promise<T>;
  /** Something changed: what is kept is old. */
  forget(): void;
}

/**
 * Twenty screens hear of one change at the same moment and all ask the same: it is made once for all of them. Kept for
 * two seconds at most, because readings also arrive without changing any verdict.
 */
export function createShortCache<T>(keepMs = 2000): ShortCache<T> {
  const kept = new Map<string, { readonly made: Promise<T>; readonly madeMs: number }>();
  return {
    get(key, make) {
      const nowMs = performance.now();
      const found = kept.get(key);
      if (found !== undefined && nowMs - found.madeMs < keepMs) return found.made;
      const made = make();
      kept.set(key, { made, madeMs: nowMs });
      // A failure must not be handed out again.
      made.catch(() => kept.delete(key));
      return made;
    },
    forget: () => kept.clear(),
  };
}
