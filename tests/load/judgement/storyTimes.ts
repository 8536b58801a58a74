/** Every story's pile is built here: a whole hour, UTC. Seasons come from the story's weather. */
export const builtMs = Date.UTC(2026, 0, 5, 8);
export const minuteMs = 60_000;
export const hourMs = 3_600_000;
export const dayMs = 86_400_000;

export interface Interval {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Whether two stretches share an instant. */
export function touches(one: Interval, other: Interval): boolean {
  return one.fromMs <= other.toMs && other.fromMs <= one.toMs;
}
