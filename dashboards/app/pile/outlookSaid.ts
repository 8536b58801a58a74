import type { OutlookView } from '../../../shared/api/types.ts';
import { duration, temperature } from '../../common/format.ts';
import { outlookWords } from './outlookWords.ts';

type Forecast = NonNullable<OutlookView['forecast']>;

const dayMs = 86_400_000;
const hourMs = 3_600_000;
/** Less likely than this is said to be unlikely. */
const worthSaying = 0.2;

/** "4 in 5", "1 in 10": chances as people say them. */
export function chanceWords(probability: number): string {
  if (probability >= 0.95) return outlookWords.nearlyCertain;
  if (probability < 0.05) return outlookWords.veryUnlikely;
  const tenths = Math.round(probability * 10);
  return tenths % 2 === 0 ? outlookWords.inFive(tenths / 2) : outlookWords.inTen(tenths);
}

/** The one thing to know first: whether and when it comes to its ceiling. */
export function ceilingWords(forecast: Forecast, coreCelsius: number | null): string {
  const { ceiling, ceilingCelsius, horizonDays } = forecast;
  const level = temperature(ceilingCelsius, 0);
  const chance = chanceWords(ceiling.probability);
  if (coreCelsius !== null && coreCelsius >= ceilingCelsius) return outlookWords.aboveNow(level);
  if (ceiling.probability < worthSaying) return outlookWords.notLikely(level, horizonDays, chance);
  const { low, middle, high } = ceiling.days;
  if (middle >= horizonDays) return outlookWords.mayWithin(level, horizonDays, chance);
  const [earliest, about] = [low, middle].map((days) => duration(days * dayMs)) as [string, string];
  const latest = high >= horizonDays ? outlookWords.later : duration(high * dayMs);
  return outlookWords.mayInAbout(level, about, earliest, latest, chance);
}

/** What else is to come, one sentence each. */
export function comingWords({ daysAbove55, nearAir, dry, horizonDays }: Forecast): string[] {
  const said: string[] = [];
  if (daysAbove55.high >= 0.25)
    said.push(
      outlookWords.hotFor(temperature(55, 0), daysWords(daysAbove55.low, daysAbove55.high), horizonDays),
    );
  if (nearAir.probability >= worthSaying)
    said.push(
      outlookWords.nearAir(
        daysWords(nearAir.days.low, Math.min(horizonDays, nearAir.days.high)),
        chanceWords(nearAir.probability),
      ),
    );
  if (dry.probability >= worthSaying)
    said.push(
      outlookWords.dry(
        daysWords(dry.days.low, Math.min(horizonDays, dry.days.high)),
        chanceWords(dry.probability),
      ),
    );
  return said;
}

function daysWords(low: number, high: number): string {
  const [from, to] = [Math.round(low), Math.round(high)];
  return from === to ? outlookWords.aboutDays(to) : outlookWords.daysFromTo(from, to);
}

/** Kelvin of one-hour error above which it is said that the forecast is off. */
const wellFollowedKelvin = 2;

/** How far the forecast is to be trusted. */
export function trustWords({ recentErrorKelvin }: Forecast): string {
  return recentErrorKelvin <= wellFollowedKelvin ? outlookWords.fitted : outlookWords.fittedBadly;
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
      return outlookWords.ended;
    case 'not-modelled':
      return outlookWords.notModelled;
    case 'no-core':
      return outlookWords.noCore;
    case 'too-early':
      return left < 1
        ? outlookWords.tooEarlyHours(hoursRead, hoursNeeded, Math.ceil(left * 24))
        : outlookWords.tooEarlyDays(hoursRead, hoursNeeded, Math.ceil(left));
    case 'core-silent':
      return outlookWords.coreSilent(duration(nowMs - (lastCoreMs ?? nowMs) - hourMs / 2));
  }
}
