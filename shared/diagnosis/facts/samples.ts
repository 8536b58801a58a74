import type { Sample } from '../../readings/reading.ts';

export const hourMs = 3_600_000;
export const dayMs = 24 * hourMs;

/** Samples within [fromMs, toMs]. */
export function within(samples: readonly Sample[], fromMs: number, toMs: number): Sample[] {
  return samples.filter(({ timeMs }) => timeMs >= fromMs && timeMs <= toMs);
}

/** Mean of the values, or null when there are fewer than `least`. */
export function meanOf(samples: readonly Sample[], least: number): number | null {
  if (samples.length < least) return null;
  return samples.reduce((sum, { value }) => sum + value, 0) / samples.length;
}

export function highestOf(samples: readonly Sample[]): number | null {
  return samples.length === 0 ? null : Math.max(...samples.map(({ value }) => value));
}

export function lowestOf(samples: readonly Sample[]): number | null {
  return samples.length === 0 ? null : Math.min(...samples.map(({ value }) => value));
}

/** The value nearest to a time, or null when none is within `reachMs`. */
export function nearest(samples: readonly Sample[], timeMs: number, reachMs: number): number | null {
  const near = within(samples, timeMs - reachMs, timeMs + reachMs);
  const distance = (one: Sample) => Math.abs(one.timeMs - timeMs);
  return near.length === 0 ? null : near.reduce((a, b) => (distance(b) < distance(a) ? b : a)).value;
}
