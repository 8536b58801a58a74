import { requireBetween } from '../allowed.ts';
import { boilingPointAtAltitude, boilingPointAtPressure } from './boilingPoint.ts';

/** What a check at a known temperature found. Add `offsetCelsius` to what the probe says. */
export interface PointCheck {
  readonly trueCelsius: number;
  readonly readCelsius: number;
  readonly offsetCelsius: number;
  /** Largest minus smallest of the readings taken. */
  readonly spreadCelsius: number;
  readonly verdict:
    | 'within tolerance'
    | 'apply the offset'
    | 'replace the probe'
    | 'not steady: wait and repeat';
}

export interface PointCheckLimits {
  readonly toleranceCelsius: number;
  /** An error larger than this is a broken probe, not an offset (ours). */
  readonly replaceBeyondCelsius: number;
  /** Readings must agree within this before any verdict is given (ours). */
  readonly steadyWithinCelsius: number;
}

/** Pass limit of 1 C for hand probes is in common use (confirmed); the other two are ours. */
export const defaultPointLimits: PointCheckLimits = {
  toleranceCelsius: 1,
  replaceBeyondCelsius: 3,
  steadyWithinCelsius: 0.3,
};

/**
 * Compares steady readings with a known temperature. Uses their median. Throws `RangeError` when there are none.
 */
export function checkAgainst(
  trueCelsius: number,
  readings: readonly number[],
  limits: PointCheckLimits = defaultPointLimits,
): PointCheck {
  if (readings.length === 0) throw new RangeError('readings is empty; at least one reading is needed');
  const sorted = readings
    .map((one) => requireBetween('reading', one, -55, 200))
    .sort((one, other) => one - other);
  const half = Math.floor(sorted.length / 2);
  const readCelsius = sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
  const spreadCelsius = sorted.at(-1)! - sorted[0]!;
  const offsetCelsius = trueCelsius - readCelsius;
  return {
    trueCelsius,
    readCelsius,
    offsetCelsius,
    spreadCelsius,
    verdict: verdictOf(offsetCelsius, spreadCelsius, limits),
  };
}

function verdictOf(offset: number, spread: number, limits: PointCheckLimits): PointCheck['verdict'] {
  if (spread > limits.steadyWithinCelsius) return 'not steady: wait and repeat';
  if (Math.abs(offset) > limits.replaceBeyondCelsius) return 'replace the probe';
  return Math.abs(offset) <= limits.toleranceCelsius ? 'within tolerance' : 'apply the offset';
}

/** Temperature of packed crushed ice with just enough clean water to fill the gaps. */
export const icePointCelsius = 0;

/** Check in packed crushed ice and clean water, which is at 0.00 C. */
export function checkIcePoint(
  readings: readonly number[],
  limits: PointCheckLimits = defaultPointLimits,
): PointCheck {
  return checkAgainst(icePointCelsius, readings, limits);
}

/**
 * Check in boiling water: a burn risk, and the ice point plus one comparison at 50 to 70 C tells more about compost.
 * Give the station pressure where it is known; altitude alone assumes the standard atmosphere.
 */
export function checkBoilingPoint(
  readings: readonly number[],
  place: { readonly altitudeMetres: number } | { readonly pressurePascal: number },
  limits: PointCheckLimits = defaultPointLimits,
): PointCheck {
  const trueCelsius =
    'pressurePascal' in place
      ? boilingPointAtPressure(place.pressurePascal)
      : boilingPointAtAltitude(place.altitudeMetres);
  return checkAgainst(trueCelsius, readings, limits);
}
