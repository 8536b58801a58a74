import {
  fahrenheitDifferenceFromCelsius,
  formatTemperature,
  formatTemperatureDifference,
} from '../units/temperature.ts';
import type { TemperatureUnit } from '../yard/yard.ts';

export interface SuggestionFigures {
  readonly changed: Readonly<Record<string, number>>;
  readonly before: number;
  readonly after: number;
  /** What is counted: texts where people are texted, else notices on the wall. */
  readonly counts: 'texts' | 'notices';
  readonly days: number;
  /** Most warning lost before any trouble; negative = won. */
  readonly lostMinutes: number;
}

/** "With deadband 1.5 C and on-delay 30 min you would have had 2 texts, not 9, and lost 20 min of warning." */
export function suggestionWords(figures: SuggestionFigures, unit: TemperatureUnit): string {
  const { changed, before, after, counts, days, lostMinutes } = figures;
  const settings = Object.entries(changed).map(([key, value]) => settingWords(key, value, unit));
  const had = `${after} ${after === 1 ? counts.slice(0, -1) : counts}, not ${before}`;
  return `With ${listed(settings)} you would have had ${had}, in ${Math.round(days)} days, and ${warningWords(lostMinutes)}.`;
}

function warningWords(lostMinutes: number): string {
  const minutes = Math.round(lostMinutes);
  if (minutes > 0) return `lost ${durationWords(minutes)} of warning`;
  return minutes < 0 ? `won ${durationWords(-minutes)} of warning` : 'lost no warning';
}

/** "20 min", "1.5 h". */
export function durationWords(minutes: number): string {
  return minutes < 120 ? `${Math.round(minutes)} min` : `${Math.round(minutes / 6) / 10} h`;
}

function settingWords(key: string, value: number, unit: TemperatureUnit): string {
  switch (key) {
    case 'limitCelsius':
      return `limit ${formatTemperature(value, { unit, decimals: decimals(value, unit) })}`;
    case 'limitFraction':
      return `limit ${percent(value)}`;
    case 'deadbandCelsius': {
      const shown = unit === 'F' ? fahrenheitDifferenceFromCelsius(value) : value;
      return `deadband ${formatTemperatureDifference(value, { unit, decimals: Number.isInteger(shown) ? 0 : 1 })}`;
    }
    case 'deadbandFraction':
      return `deadband ${percent(value)}`;
    case 'onDelayMinutes':
      return `on-delay ${durationWords(value)}`;
    case 'offDelayMinutes':
      return `off-delay ${durationWords(value)}`;
    default:
      return `${key} ${value}`;
  }
}

const decimals = (celsius: number, unit: TemperatureUnit): number =>
  unit === 'C' && !Number.isInteger(celsius) ? 1 : 0;

const percent = (fraction: number): string => `${Math.round(fraction * 1000) / 10} %`;

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}
