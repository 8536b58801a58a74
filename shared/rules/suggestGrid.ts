import type { CommonParameters } from './condition.ts';
import type { SafeBounds } from './suggestBounds.ts';

/** Which of a condition's parameters a suggestion turns; null where it has none of that kind. */
export interface Knobs {
  readonly limit: string | null;
  readonly deadband: string | null;
}

/** Finds the limit and the deadband among a condition's parameters by their names (house rule: unit at the end). */
export function knobsOf(parameters: CommonParameters): Knobs {
  const keys = Object.keys(parameters);
  return {
    limit: keys.find((key) => key === 'limitCelsius' || key === 'limitFraction') ?? null,
    deadband: keys.find((key) => /^deadband(Celsius|Fraction)$/.test(key)) ?? null,
  };
}

/** Steps worth trying; a pile changes over hours, so nothing finer matters (common practice, no source). */
const onDelays = [10, 30, 60, 120, 240, 480, 720];
const offDelays = [30, 60, 120, 240, 480];
const deadbandsCelsius = [0.5, 1, 1.5, 2, 3, 4, 5];
const deadbandsFraction = [0.01, 0.02, 0.03, 0.05, 0.08];

/**
 * Sets of parameters to try: the current ones first, then the small grid around them inside the safe bounds. A limit
 * moves by at most two steps at a time; where the current one is outside the bounds it is brought to their edge.
 */
export function candidatesOf(current: CommonParameters, bounds: SafeBounds): CommonParameters[] {
  const knobs = knobsOf(current);
  const value = (key: string): number => (current as unknown as Record<string, number>)[key]!;
  const limits = knobs.limit === null ? [null] : limitsOf(value(knobs.limit), bounds);
  const deadbands =
    knobs.deadband === null
      ? [null]
      : withCurrent(
          knobs.deadband === 'deadbandFraction' ? deadbandsFraction : deadbandsCelsius,
          value(knobs.deadband),
          bounds.mostDeadband,
        );
  const on = withCurrent(onDelays, current.onDelayMinutes, bounds.mostOnDelayMinutes);
  const off = withCurrent(offDelays, current.offDelayMinutes, bounds.mostOffDelayMinutes);
  const grid = limits.flatMap((limit) =>
    deadbands.flatMap((deadband) =>
      on.flatMap((onDelayMinutes) =>
        off.map((offDelayMinutes) => ({
          ...current,
          ...(limit === null ? {} : { [knobs.limit!]: limit }),
          ...(deadband === null ? {} : { [knobs.deadband!]: deadband }),
          onDelayMinutes,
          offDelayMinutes,
        })),
      ),
    ),
  );
  return [current, ...grid];
}

function limitsOf(current: number, { limit }: SafeBounds): (number | null)[] {
  if (limit === null) return [null];
  const inside = Math.min(limit.maximum, Math.max(limit.minimum, current));
  const tried = [0, -1, 1, 2].map((steps) => round(inside + steps * limit.step));
  return tried.filter((value) => value >= limit.minimum - 1e-9 && value <= limit.maximum + 1e-9);
}

/** At most four values: the current one when it is inside, and the nearest tried ones around it. */
function withCurrent(tried: readonly number[], current: number, most: number): number[] {
  const inside = Math.min(current, most);
  const all = [...new Set([inside, ...tried.filter((value) => value <= most)])].sort((a, b) => a - b);
  const place = all.indexOf(inside);
  const from = Math.max(0, Math.min(place - 1, all.length - 5));
  return all.slice(from, from + 5);
}

const round = (value: number): number => Math.round(value * 1000) / 1000;
