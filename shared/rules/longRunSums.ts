import { handAgeHours } from './byHand.ts';

/** Sums over a pile's whole life, kept up to date sample by sample. */
export interface LongRunSums {
  hoursAbove55: number;
  /** Degree-hours above 40 C: integral of max(0, core - 40). */
  degreeHoursAbove40: number;
  peakCelsius: number | null;
  firstAt40Ms: number | null;
  firstAt55Ms: number | null;
  lastAt45Ms: number | null;
  lastAt55Ms: number | null;
  /** Last instant taken in. */
  lastMs: number | null;
  lastCelsius: number;
  /** A person measured it. */
  lastByHand: boolean;
}

/** A gap longer than this between samples is not credited (our choice, no source). */
export const longestCreditedGapHours = 2;

/** Between two readings by hand: who reads the dial once a day does it within this (our choice, no source). */
const longestHandGapHours = handAgeHours.temperature;

export function createSums(): LongRunSums {
  return {
    hoursAbove55: 0,
    degreeHoursAbove40: 0,
    peakCelsius: null,
    firstAt40Ms: null,
    firstAt55Ms: null,
    lastAt45Ms: null,
    lastAt55Ms: null,
    lastMs: null,
    lastCelsius: Number.NaN,
    lastByHand: false,
  };
}

/**
 * Takes the core's value at an instant, in time order. Heat is credited conservatively: a stretch counts with the
 * lower of its two ends, and not at all across a gap.
 */
export function addToSums(sums: LongRunSums, timeMs: number, celsius: number, byHand = false): void {
  const hours = sums.lastMs === null ? 0 : (timeMs - sums.lastMs) / 3_600_000;
  const longest = byHand && sums.lastByHand ? longestHandGapHours : longestCreditedGapHours;
  if (hours > 0 && hours <= longest) credit(sums, hours, Math.min(sums.lastCelsius, celsius));
  sums.lastMs = timeMs;
  sums.lastCelsius = celsius;
  sums.lastByHand = byHand;
  if (sums.peakCelsius === null || celsius > sums.peakCelsius) sums.peakCelsius = celsius;
  if (celsius >= 40) sums.firstAt40Ms ??= timeMs;
  if (celsius >= 45) sums.lastAt45Ms = timeMs;
  if (celsius >= 55) {
    sums.firstAt55Ms ??= timeMs;
    sums.lastAt55Ms = timeMs;
  }
}

/** An hour known only by its roll-up: what stands in for raw readings that are too many to read again at a restart. */
export function addHourToSums(sums: LongRunSums, hour: HourOfCore): void {
  if (hour.byHand === true) {
    addToSums(sums, hour.startMs, hour.maximum, true);
    return;
  }
  credit(sums, 1, hour.minimum);
  sums.lastByHand = false;
  if (sums.peakCelsius === null || hour.maximum > sums.peakCelsius) sums.peakCelsius = hour.maximum;
  if (hour.maximum >= 40) sums.firstAt40Ms ??= hour.startMs;
  if (hour.maximum >= 45) sums.lastAt45Ms = hour.startMs;
  if (hour.maximum >= 55) {
    sums.firstAt55Ms ??= hour.startMs;
    sums.lastAt55Ms = hour.startMs;
  }
}

export interface HourOfCore {
  readonly startMs: number;
  readonly minimum: number;
  readonly maximum: number;
  /** It rests on a reading by hand. */
  readonly byHand?: boolean;
}

function credit(sums: LongRunSums, hours: number, celsius: number): void {
  if (celsius >= 55) sums.hoursAbove55 += hours;
  if (celsius > 40) sums.degreeHoursAbove40 += hours * (celsius - 40);
}
