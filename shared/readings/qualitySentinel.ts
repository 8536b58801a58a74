import { didNotAnswerCelsius, failedConversionCelsius } from '../senml/oneWire.ts';
import { contextMs, isNotBad, nearestTo } from './qualityContext.ts';
import type { QualityInput } from './qualityInput.ts';
import type { QualityReason, Reading } from './reading.ts';

/** How near the rest of the pile must be to a suspicious exact value for it to be believed. Ours. */
const nearCelsius = 5;
/** Probes print these values with two to four decimals. */
const printedTolerance = 0.005;
const exactTolerance = 1e-6;

/** Values that stand for a fault whatever surrounds them (reference pack P-9, P-10); null for any other. */
export function faultValue(input: QualityInput): QualityReason | null {
  if (input.quantity !== 'temperature') return null;
  const { rawValue } = input.candidate;
  if (isAbout(rawValue, didNotAnswerCelsius, printedTolerance)) return 'did-not-answer';
  return isAbout(rawValue, failedConversionCelsius, printedTolerance) ? 'conversion-failed' : null;
}

/**
 * Values that are a fault or the truth depending on what surrounds them: exactly the power-on value, and exactly 0.
 * Both are believed when the channel's own nearest reading, or failing that a neighbour's, is near.
 */
export function contextualFault(input: QualityInput): QualityReason | null {
  const { candidate, sensor, quantity } = input;
  if (sensor.powerOnValue !== null && isExactly(candidate.rawValue, sensor.powerOnValue)) {
    if (candidate.flags?.restarted === true) return 'power-on-value';
    // Nothing near to compare with is the first sample after a gap: the very case the value exists for.
    return evidenceFor(input, sensor.powerOnValue) === 'near' ? null : 'power-on-value';
  }
  if (quantity === 'temperature' && isExactly(candidate.rawValue, 0)) {
    return evidenceFor(input, 0) === 'far' ? 'bus-stuck-low' : null;
  }
  return null;
}

function evidenceFor(input: QualityInput, exactValue: number): 'near' | 'far' | 'none' {
  // A brown-out or a stuck bus gives every sensor on it the same value, so the value cannot vouch for itself.
  const speaks = (reading: Reading) => isNotBad(reading) && !isExactly(reading.rawValue, exactValue);
  const { timeMs } = input.candidate;
  const own = nearestTo(input.history, timeMs, contextMs, speaks);
  if (own !== null) return isAbout(own.rawValue, exactValue, nearCelsius) ? 'near' : 'far';
  const others = input.neighbours
    .map(({ history }) => nearestTo(history, timeMs, contextMs, speaks))
    .filter((reading) => reading !== null);
  if (others.length === 0) return 'none';
  return others.some((reading) => isAbout(reading.value, exactValue, nearCelsius)) ? 'near' : 'far';
}

function isExactly(value: number, expected: number): boolean {
  return isAbout(value, expected, exactTolerance);
}

function isAbout(value: number, expected: number, tolerance: number): boolean {
  return Math.abs(value - expected) <= tolerance;
}
