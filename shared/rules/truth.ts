import type { Truth } from '../alarms/timing.ts';
import type { Certainty } from './extreme.ts';

/**
 * Truth of "the extreme is beyond its limit" (hotter than, drier than): a bound can prove it but not disprove it,
 * because the channel that was furthest out is lost.
 */
export function isHighTruth(certainty: Certainty, beyond: boolean): Truth {
  if (certainty === 'unknown') return 'unknown';
  if (beyond) return 'true';
  return certainty === 'bound' ? 'unknown' : 'false';
}

/** Truth of a fact that may not be known. */
export function truthOfKnown<T>(fact: T | null, holds: (fact: T) => boolean): Truth {
  if (fact === null) return 'unknown';
  return holds(fact) ? 'true' : 'false';
}
