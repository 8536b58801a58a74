/** Standing of the flood detector. */
export interface Flood {
  readonly flooding: boolean;
  readonly sinceMs: number | null;
}

export const noFlood: Flood = { flooding: false, sinceMs: null };

/** More activations than this in ten minutes start a flood; fewer than `endBelow` end it (ISA-18.2, restated: C-54). */
export const floodLimits = { windowMinutes: 10, startAbove: 10, endBelow: 5 } as const;

/** How many of the activation times (any order) fall in the ten minutes that end at `nowMs`, its start excluded. */
export function activationsInWindow(timesMs: readonly number[], nowMs: number): number {
  const fromMs = nowMs - floodLimits.windowMinutes * 60_000;
  return timesMs.filter((timeMs) => timeMs > fromMs && timeMs <= nowMs).length;
}

/** One step of the flood detector: starts above 10 in ten minutes, goes on until there are fewer than 5. */
export function stepFlood(flood: Flood, activations: number, atMs: number): Flood {
  if (!flood.flooding) {
    return activations > floodLimits.startAbove ? { flooding: true, sinceMs: atMs } : flood;
  }
  return activations < floodLimits.endBelow ? noFlood : flood;
}
