import { checkIcePoint, defaultPointLimits } from './pointCheck.ts';

/** One reading as the sensor gave it, before any calibration. */
export interface RawPoint {
  readonly timeMs: number;
  readonly rawCelsius: number;
}

/** How a sensor in ice and water stands just now. Temperatures are raw. */
export type IceBath =
  | { readonly kind: 'nothing-yet' }
  /** Too few readings, or over too short a time, to say more. */
  | { readonly kind: 'wait'; readonly rawCelsius: number; readonly readings: number }
  | { readonly kind: 'still-moving'; readonly rawCelsius: number; readonly spreadCelsius: number }
  /** It stands still, but so far from 0 C that it is not in ice and water, or broken. */
  | { readonly kind: 'not-ice'; readonly rawCelsius: number }
  | {
      readonly kind: 'settled';
      readonly rawCelsius: number;
      readonly spreadCelsius: number;
      readonly readings: number;
      /** To be added to what the sensor says. */
      readonly offsetCelsius: number;
      /** It is right within what a hand probe may be out (1 C): the offset is a nicety. */
      readonly withinTolerance: boolean;
    };

/** Readings must agree over at least this time, and at least this many of them (ours). */
export const settleMs = 60_000;
export const leastReadings = 3;
/** Beyond this, however many there are, old readings say nothing about now. */
const longestMs = 30 * 60_000;

/**
 * Whether a sensor has settled in packed ice and water (0.00 C), and the offset it then needs. The readings judged are the
 * newest ones that cover `settleMs`, but no fewer than three: a probe that sends every five minutes is judged over ten.
 */
export function iceBathStanding(points: readonly RawPoint[], nowMs: number): IceBath {
  const recent = points.filter(({ timeMs }) => timeMs > nowMs - longestMs);
  const newest = recent.at(-1);
  if (newest === undefined) return { kind: 'nothing-yet' };
  const judged = newestThatSettle(recent);
  if (judged === null) return { kind: 'wait', rawCelsius: newest.rawCelsius, readings: recent.length };
  const values = judged.map(({ rawCelsius }) => rawCelsius);
  const spreadCelsius = Math.max(...values) - Math.min(...values);
  const isSteady = spreadCelsius <= defaultPointLimits.steadyWithinCelsius;
  if (!isSteady) return { kind: 'still-moving', rawCelsius: newest.rawCelsius, spreadCelsius };
  if (Math.abs(newest.rawCelsius) > defaultPointLimits.replaceBeyondCelsius)
    return { kind: 'not-ice', rawCelsius: newest.rawCelsius };
  const { readCelsius, offsetCelsius, verdict } = checkIcePoint(values);
  const withinTolerance = verdict === 'within tolerance';
  return {
    kind: 'settled',
    rawCelsius: readCelsius,
    spreadCelsius,
    readings: values.length,
    offsetCelsius,
    withinTolerance,
  };
}

/** The shortest run of newest readings that is long enough; null when there is none yet. */
function newestThatSettle(points: readonly RawPoint[]): readonly RawPoint[] | null {
  const last = points.at(-1)!;
  for (let first = points.length - leastReadings; first >= 0; first -= 1)
    if (last.timeMs - points[first]!.timeMs >= settleMs) return points.slice(first);
  return null;
}
