/** Where the time comes from. Everything that judges or stamps takes one, so that the demo can run fast and tests can stand still. */
export interface Clock {
  nowMs(): number;
  /** How many of its milliseconds pass in one of the machine's; 1 when left out. */
  readonly speed?: number;
}

export const systemClock: Clock = { nowMs: () => Date.now() };

/** A clock that runs `speed` times as fast from `startMs` on; 1 keeps pace with the machine. */
export function createFastClock(startMs: number, speed: number): Clock {
  const startedMs = performance.now();
  return { speed, nowMs: () => Math.round(startMs + (performance.now() - startedMs) * speed) };
}
