import type { OutlookView } from '../../../shared/api/types.ts';
import { duration, temperature } from '../../common/format.ts';

type Forecast = NonNullable<OutlookView['forecast']>;

const dayMs = 86_400_000;
const hourMs = 3_600_000;
/** Less likely than this is said to be unlikely. */
const worthSaying = 0.2;

/** "4 in 5", "1 in 10": chances as people say them. */
export function chanceWords(probability: number): string {
  if (probability >= 0.95) return 'nearly certain';
  if (probability < 0.05) return 'very unlikely';
  const tenths = Math.round(probability * 10);
  return tenths % 2 === 0 ? `${tenths / 2} in 5` : `${tenths} in 10`;
}

/** The one thing to know first: whether and when it comes to its ceiling. */
export function ceilingWords(forecast: Forecast, coreCelsius: number | null): string {
  const { ceiling, ceilingCelsius, horizonDays } = forecast;
  const level = temperature(ceilingCelsius, 0);
  if (coreCelsius !== null && coreCelsius >= ceilingCelsius)
    return `It is above its ceiling of ${level} now.`;
  if (ceiling.probability < worthSaying)
    return `Not likely to come to its ceiling of ${level} within ${horizonDays} days (${chanceWords(ceiling.probability)}).`;
  const { low, middle, high } = ceiling.days;
  const when =
    middle >= horizonDays
      ? `within ${horizonDays} days`
      : `in about ${duration(middle * dayMs)} (${duration(low * dayMs)} to ${high >= horizonDays ? 'later' : duration(high * dayMs)})`;
  return `It may come to its ceiling of ${level} ${when}: ${chanceWords(ceiling.probability)}.`;
}

/** What else is to come, one sentence each. */
export function comingWords({ daysAbove55, nearAir, dry, horizonDays }: Forecast): string[] {
  const said: string[] = [];
  if (daysAbove55.high >= 0.25)
    said.push(
      `${temperature(55, 0)} or more for ${daysWords(daysAbove55.low, daysAbove55.high)} of the next ${horizonDays} days.`,
    );
  if (nearAir.probability >= worthSaying)
    said.push(
      `Cooled to near the air in ${daysWords(nearAir.days.low, Math.min(horizonDays, nearAir.days.high))}: ${chanceWords(nearAir.probability)}.`,
    );
  if (dry.probability >= worthSaying)
    said.push(
      `Dry in ${daysWords(dry.days.low, Math.min(horizonDays, dry.days.high))} if nobody waters it: ${chanceWords(dry.probability)} (estimated from its heat).`,
    );
  return said;
}

function daysWords(low: number, high: number): string {
  const [from, to] = [Math.round(low), Math.round(high)];
  return from === to ? `about ${to} ${to === 1 ? 'day' : 'days'}` : `${from} to ${to} days`;
}

/** Kelvin of one-hour error above which it is said that the forecast is off. */
const wellFollowedKelvin = 2;

/** How far the forecast is to be trusted. */
export function trustWords({ recentErrorKelvin }: Forecast): string {
  const base = 'Fitted to this pile’s own readings; if nobody turns, opens or waters it.';
  return recentErrorKelvin <= wellFollowedKelvin
    ? base
    : `${base} It has followed this pile badly over the last three days: trust it little.`;
}

/** Why there is no forecast, and what would give one. */
export function missingWords(
  { state, hoursRead, hoursNeeded, lastCoreMs }: OutlookView,
  nowMs: number,
): string {
  const left = (hoursNeeded - hoursRead) / 24;
  switch (state) {
    case 'fitted':
      return '';
    case 'ended':
      return 'This pile has ended.';
    case 'not-modelled':
      return 'No forecast for this kind of pile: it does not heat by itself. Its range is drawn instead.';
    case 'no-core':
      return 'No forecast yet: no core probe has sent a good reading. Two days of them are needed.';
    case 'too-early':
      return `No forecast yet: ${hoursRead} hours of good core readings, ${hoursNeeded} are needed. About ${left < 1 ? `${Math.ceil(left * 24)} more hours` : `${Math.ceil(left)} more days`}.`;
    case 'core-silent':
      return `No forecast now: the core has sent nothing good for ${duration(nowMs - (lastCoreMs ?? nowMs) - hourMs / 2)}. What it does since is not known.`;
  }
}
