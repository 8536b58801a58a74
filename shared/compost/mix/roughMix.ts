/**
 * The rough way many handouts mix: C:N averaged by plain mass. It ignores moisture and nitrogen content and can be
 * far off (reference pack 1.1, "Trap": 34.8 where the true ratio is 38.2), so it is kept apart from `blend` and only
 * serves to compare with what people worked out on paper.
 */
import { requireBetween, requirePositive } from '../allowed.ts';

/** C:N averaged by mass. Parts in any one mass unit. */
export function roughCarbonToNitrogen(
  parts: readonly { readonly mass: number; readonly ratio: number }[],
): number {
  const total = requirePositive(
    'total mass',
    parts.reduce((sum, part) => sum + part.mass, 0),
  );
  return parts.reduce((sum, part) => sum + part.mass * part.ratio, 0) / total;
}

/** Share 0..1 of the second ingredient that brings the mass-averaged C:N to a goal. Throws when the goal is outside. */
export function roughShareOfSecond(firstRatio: number, secondRatio: number, goalRatio: number): number {
  requireBetween(
    'goalRatio',
    goalRatio,
    Math.min(firstRatio, secondRatio),
    Math.max(firstRatio, secondRatio),
  );
  if (firstRatio === secondRatio)
    throw new RangeError('secondRatio equals firstRatio; any share gives the goal');
  return (goalRatio - firstRatio) / (secondRatio - firstRatio);
}
