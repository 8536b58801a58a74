import type { Stretch } from './stretches.ts';

export type PartName = 'hours' | 'turnings' | 'hotter-hours' | 'average' | 'turns-after-hold';

/** One thing a path asks for: how much there is and how much is needed. `enough` settles strict comparisons. */
export interface Part {
  readonly name: PartName;
  readonly have: number;
  readonly need: number;
  readonly enough: boolean;
}

/** How far one path of a rule has come. */
export interface PathOutcome {
  readonly satisfiedAtMs: number | null;
  /** 0..1; 1 only when the path is satisfied. */
  readonly progress: number;
  readonly parts: readonly Part[];
  /** Hours inside the band, all together and in the longest period whose hours may be added. */
  readonly totalHours: number;
  readonly bestPeriodHours: number;
  readonly stretches: readonly Stretch[];
}

const msPerHour = 3_600_000;

export function hoursFrom(ms: number): number {
  return ms / msPerHour;
}

export function msFrom(hours: number): number {
  return hours * msPerHour;
}

/** Mean of how full each part is, kept just under 1 until the path is really satisfied. */
export function progressOf(parts: readonly Part[], satisfied: boolean): number {
  if (satisfied) return 1;
  const filled = parts.map((part) => (part.enough ? 1 : Math.min(0.99, Math.max(0, part.have / part.need))));
  return Math.min(0.99, filled.reduce((sum, share) => sum + share, 0) / filled.length);
}
