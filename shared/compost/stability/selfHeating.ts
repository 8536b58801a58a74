import type { RuleStatus } from '../sanitisation/ruleSet.ts';

/** A reading of the insulated-vessel test: the sample inside and the room around it. */
export interface VesselReading {
  readonly timeMs: number;
  readonly sampleCelsius: number;
  readonly roomCelsius: number;
}

export type SelfHeatingClass = 'I' | 'II' | 'III' | 'IV' | 'V';

/** One class: rises up to and including `maximumRiseCelsius`; the shared edge goes to the more stable class (ours). */
export interface SelfHeatingBand {
  readonly name: SelfHeatingClass;
  readonly maximumRiseCelsius: number;
  readonly words: string;
  readonly status: RuleStatus;
}

/** Classes by rise over the room (LAGA M10, TMECC 05.08-D, EN 16087-2, Brinton 1995); II and I seen, the rest recalled. */
export const selfHeatingBands: readonly SelfHeatingBand[] = [
  { name: 'V', maximumRiseCelsius: 10, words: 'finished, very stable', status: 'from-memory' },
  { name: 'IV', maximumRiseCelsius: 20, words: 'maturing, nearly finished', status: 'from-memory' },
  { name: 'III', maximumRiseCelsius: 30, words: 'still decomposing, active', status: 'from-memory' },
  { name: 'II', maximumRiseCelsius: 40, words: 'fresh, very active', status: 'confirmed' },
  {
    name: 'I',
    maximumRiseCelsius: Number.POSITIVE_INFINITY,
    words: 'raw mix, just started',
    status: 'confirmed',
  },
];

/** The class of a rise over the room temperature. Bands must be in rising order and end without limit. */
export function selfHeatingClass(
  riseCelsius: number,
  bands: readonly SelfHeatingBand[] = selfHeatingBands,
): SelfHeatingBand {
  const found = bands.find((band) => riseCelsius <= band.maximumRiseCelsius);
  if (found === undefined) throw new RangeError(`riseCelsius ${riseCelsius} is beyond the last class`);
  return found;
}

export interface SelfHeatingResult {
  readonly riseCelsius: number;
  readonly maximumCelsius: number;
  readonly roomCelsius: number;
  readonly atMs: number;
  readonly band: SelfHeatingBand;
  /** Why the result should not be leaned on, in plain words; empty when the log is as the test asks. */
  readonly doubts: readonly string[];
}

const msPerDay = 86_400_000;

/**
 * Reads a vessel test: the greatest rise over the room, its class and what is doubtful about the log. Needs readings
 * in time order; throws `RangeError` on an empty log. Never to be used on a pile's own probes: a pile is not a vessel.
 */
export function readSelfHeatingTest(log: readonly VesselReading[]): SelfHeatingResult {
  const rise = (reading: VesselReading) => reading.sampleCelsius - reading.roomCelsius;
  const top = log.reduce<VesselReading | null>(
    (best, one) => (best && rise(best) >= rise(one) ? best : one),
    null,
  );
  if (top === null) throw new RangeError('the vessel log is empty; at least one reading is needed');
  return {
    riseCelsius: rise(top),
    maximumCelsius: top.sampleCelsius,
    roomCelsius: top.roomCelsius,
    atMs: top.timeMs,
    band: selfHeatingClass(rise(top)),
    doubts: doubtsAbout(log, top),
  };
}

function doubtsAbout(log: readonly VesselReading[], top: VesselReading): string[] {
  const days = (log.at(-1)!.timeMs - log[0]!.timeMs) / msPerDay;
  const doubts: string[] = [];
  if (days < 5)
    doubts.push(`The log covers ${days.toFixed(1)} days; the test runs 5 to 10 days (unconfirmed).`);
  if (top === log.at(-1) && log.length > 1)
    doubts.push('It was still rising at the last reading: go on reading.');
  if (log.some((reading) => Math.abs(reading.roomCelsius - 20) > 2)) {
    doubts.push('The room was not always within 18 to 22 C, which the test asks for (unconfirmed).');
  }
  return doubts;
}
