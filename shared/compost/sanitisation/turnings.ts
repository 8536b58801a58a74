import type { TurningRequirement } from './ruleSet.ts';
import type { Stretch } from './stretches.ts';

const msPerHour = 3_600_000;

/** A turning that counts, and the moment it was known to lie inside the hot period (heat was seen after it). */
export interface CountedTurning {
  readonly timeMs: number;
  readonly knownMs: number;
}

/**
 * The turnings that count toward a rule: after the first hour at temperature, with heat seen again afterwards, and at
 * least the spacing after the one counted before. `turnedMs` is in time order.
 */
export function countTurnings(
  turnedMs: readonly number[],
  period: readonly Stretch[],
  requirement: TurningRequirement,
): CountedTurning[] {
  const counted: CountedTurning[] = [];
  const firstMs = period[0]?.fromMs ?? Number.POSITIVE_INFINITY;
  for (const timeMs of turnedMs) {
    const heatAfter = period.find((stretch) => stretch.toMs > timeMs);
    const previous = counted.at(-1);
    const spaced =
      previous === undefined || timeMs - previous.timeMs >= requirement.minimumSpacingHours * msPerHour;
    if (timeMs < firstMs || heatAfter === undefined || !spaced) continue;
    counted.push({ timeMs, knownMs: Math.max(timeMs, heatAfter.fromMs) });
  }
  return counted;
}
