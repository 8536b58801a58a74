import { formatTemperature, formatTemperatureDifference } from '../../units/temperature.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { TemperatureUnit } from '../../yard/yard.ts';
import { curedWithinCelsius, curingBelowCelsius } from './curing.ts';

/** What is known of a pile that may be finished. Null means not known, never "fine". */
export interface FinishedFacts {
  readonly method: PileMethod;
  readonly ageDays: number;
  /** Three-day means of core and air. */
  readonly coreMeanCelsius: number;
  readonly airMeanCelsius: number;
  /** Greatest rise over the air since the last turn or watering. */
  readonly peakRiseSinceDisturbedCelsius: number | null;
  readonly daysSinceDisturbed: number | null;
  readonly daysSinceHot: number | null;
  readonly moistureFraction: number | null;
}

export type FinishedVerdict = 'may be done' | 'not done' | 'cannot tell';

export interface FinishedJudgement {
  readonly verdict: FinishedVerdict;
  readonly reasons: readonly string[];
  readonly nextStep: string;
}

/** Levels of the "done by temperature" rule (ours, on AgriFutures and The Composting Handbook), section 7.2. */
export const finishedLevels = {
  driestFraction: 0.4,
  /** A turned pile; one kept wet on purpose may hold more. */
  wettestFraction: 0.6,
  wettestUnturnedFraction: 0.75,
  disturbedWithinDays: 7,
  peakRiseCelsius: 8,
  leastDaysSinceHot: 21,
  /** A static cage stands a full year (public park-district page). */
  leastDaysStaticCage: 365,
} as const;

const keptWet: ReadonlySet<PileMethod> = new Set(['static-cage', 'worm-bed', 'leaf-heap']);

/**
 * Whether a pile may be done, judged by temperature. Being cool proves nothing by itself: a pile that is dry, airless
 * or undisturbed looks finished and wakes up later, so those answers are "cannot tell".
 */
export function judgeFinished(facts: FinishedFacts, unit: TemperatureUnit = 'C'): FinishedJudgement {
  const warm = warmReasons(facts, unit);
  if (warm.length > 0) return { verdict: 'not done', reasons: warm, nextStep: 'Leave it and keep reading.' };
  const blind = blindReason(facts);
  if (blind !== null) return { verdict: 'cannot tell', reasons: [blind.reason], nextStep: blind.nextStep };
  return {
    verdict: 'may be done',
    reasons: [
      `Its three-day mean is within ${difference(curedWithinCelsius, unit)} of the air, it is moist, and it did not heat up when disturbed.`,
    ],
    nextStep: 'Look and smell: dark, crumbly, earthy. For sale or seedlings have a stability test made.',
  };
}

function warmReasons(facts: FinishedFacts, unit: TemperatureUnit): string[] {
  const over = facts.coreMeanCelsius - facts.airMeanCelsius;
  const reasons: string[] = [];
  if (over > curedWithinCelsius)
    reasons.push(
      `It is ${difference(over, unit)} warmer than the air; ${difference(curedWithinCelsius, unit)} or less is asked.`,
    );
  const peak = facts.peakRiseSinceDisturbedCelsius;
  if (peak !== null && peak > finishedLevels.peakRiseCelsius) {
    reasons.push(`It rose ${difference(peak, unit)} over the air after the last turn or watering.`);
  }
  if (facts.daysSinceHot !== null && facts.daysSinceHot < finishedLevels.leastDaysSinceHot) {
    reasons.push(
      `It was at ${formatTemperature(curingBelowCelsius, { unit })} or more ${facts.daysSinceHot.toFixed(0)} days ago; at least ${finishedLevels.leastDaysSinceHot} days are asked.`,
    );
  }
  if (facts.method === 'static-cage' && facts.ageDays < finishedLevels.leastDaysStaticCage) {
    reasons.push(`It is ${facts.ageDays.toFixed(0)} days old; a static cage stands about a year.`);
  }
  return reasons;
}

interface Blind {
  readonly reason: string;
  readonly nextStep: string;
}

function blindReason(facts: FinishedFacts): Blind | null {
  const moisture = facts.moistureFraction;
  const wettest = keptWet.has(facts.method)
    ? finishedLevels.wettestUnturnedFraction
    : finishedLevels.wettestFraction;
  const rewet = 'Re-wet and re-check in a week.';
  if (moisture === null)
    return {
      reason: 'Its moisture is not known; a dry pile looks finished.',
      nextStep: 'Do a squeeze test or measure it.',
    };
  if (moisture < finishedLevels.driestFraction)
    return {
      reason: `It is dry (${percent(moisture)}): a dry pile looks finished and wakes up when wet.`,
      nextStep: rewet,
    };
  if (moisture > wettest)
    return {
      reason: `It is wet (${percent(moisture)}) and may be airless.`,
      nextStep: 'Let air in, then re-check.',
    };
  return undisturbed(facts);
}

function undisturbed(facts: FinishedFacts): Blind | null {
  const days = facts.daysSinceDisturbed;
  if (days === null || days > finishedLevels.disturbedWithinDays) {
    const step = keptWet.has(facts.method) ? 'Water it through' : 'Turn or re-wet it';
    return {
      reason: 'It was not turned or watered in the last 7 days, so it had no chance to heat up.',
      nextStep: `${step} and read it for a week.`,
    };
  }
  if (facts.peakRiseSinceDisturbedCelsius === null)
    return {
      reason: 'How warm it got since it was disturbed is not known.',
      nextStep: 'Keep reading for a week.',
    };
  return null;
}

function percent(fraction: number): string {
  return `${Math.round(fraction * 100)} %`;
}

function difference(celsiusDifference: number, unit: TemperatureUnit): string {
  return formatTemperatureDifference(celsiusDifference, { unit });
}
