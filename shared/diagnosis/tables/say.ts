import { formatTemperature, formatTemperatureDifference } from '../../units/temperature.ts';
import type { TemperatureUnit } from '../../yard/yard.ts';
import type { Seen } from '../kind.ts';

type Say = (seen: Seen, unit: TemperatureUnit) => string;

/** Puts numbers and bands into one sentence; an outcome given by name stands as it is. */
function spoken(words: string, write: (value: number, unit: TemperatureUnit) => string): Say {
  return (seen, unit) => {
    if (typeof seen === 'string') return `${words} ${seen}`;
    if (typeof seen === 'number') return `${words} ${write(seen, unit)}`;
    const { low, middle, high } = seen;
    return `${words} about ${write(middle, unit)} (${write(low, unit)} to ${write(high, unit)})`;
  };
}

export const sayPercent = (words: string): Say => spoken(words, (value) => `${Math.round(value * 100)} %`);

export const sayNumber = (words: string, after: string, decimals = 0): Say =>
  spoken(words, (value) => `${value.toFixed(decimals)}${after}`);

export const sayCelsius = (words: string): Say =>
  spoken(words, (value, unit) => formatTemperature(value, { unit }));

export const sayDifference = (words: string, after = ''): Say =>
  spoken(words, (value, unit) => `${formatTemperatureDifference(value, { unit, decimals: 1 })}${after}`);

/** An outcome's own words. */
export const sayOutcome =
  (words: Readonly<Record<string, string>>): Say =>
  (seen) =>
    words[String(seen)] ?? String(seen);
