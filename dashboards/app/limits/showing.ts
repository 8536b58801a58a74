import type { LimitParameter, LimitValue } from '../../../shared/api/types.ts';
import {
  celsiusDifferenceFromFahrenheit,
  celsiusFromFahrenheit,
  fahrenheitDifferenceFromCelsius,
  fahrenheitFromCelsius,
} from '../../../shared/units/temperature.ts';
import type { TemperatureUnit } from '../../../shared/yard/yard.ts';
import { limitWords } from './words.ts';

type Shape = Pick<LimitParameter, 'key' | 'unit'>;

/** A number of degrees between two temperatures, not a temperature: no 32 in it. */
const isDifference = ({ key, unit }: Shape): boolean =>
  unit.startsWith('C/') || (unit === 'C' && /^(deadband|rise|aboveAir)/.test(key));

/** Whether a parameter is a level that can be drawn as a line across the pile's course, and over which curve. */
export function levelOf(shape: Shape): 'heat' | 'moisture' | null {
  if (shape.unit === 'C' && !isDifference(shape)) return 'heat';
  return shape.key === 'limitFraction' ? 'moisture' : null;
}

/** A stored value as the yard's people read it: in C or F, or in percent. */
export function toShown(shape: Shape, value: number, unit: TemperatureUnit): number {
  if (shape.unit === 'fraction') return tidy(value * 100);
  if (unit === 'C' || !shape.unit.startsWith('C')) return value;
  return tidy(isDifference(shape) ? fahrenheitDifferenceFromCelsius(value) : fahrenheitFromCelsius(value));
}

/** The other way round. */
export function fromShown(shape: Shape, shown: number, unit: TemperatureUnit): number {
  if (shape.unit === 'fraction') return tidy(shown / 100);
  if (unit === 'C' || !shape.unit.startsWith('C')) return shown;
  return tidy(isDifference(shape) ? celsiusDifferenceFromFahrenheit(shown) : celsiusFromFahrenheit(shown));
}

/** Unit as shown beside a number: `F/h` where the yard reads Fahrenheit. */
export function unitShown({ unit }: Shape, yardUnit: TemperatureUnit): string {
  if (unit === 'fraction') return '%';
  return unit.startsWith('C') ? yardUnit + unit.slice(1) : (limitWords.units[unit] ?? unit);
}

/** Smallest step a line is dragged or a key moves it by, as shown: half a degree Celsius, one Fahrenheit, one percent. */
export function stepOf({ unit }: Shape, yardUnit: TemperatureUnit): number {
  return unit === 'C' && yardUnit === 'C' ? 0.5 : 1;
}

/** `71 C`, `60 %`, `30 min`, `on`. */
export function valueWords(parameter: LimitParameter, value: LimitValue, unit: TemperatureUnit): string {
  if (typeof value === 'boolean') return value ? limitWords.on : limitWords.off;
  if (value === null) return limitWords.none;
  return `${tidy(toShown(parameter, value, unit), 4)} ${unitShown(parameter, unit)}`.trim();
}

/** What a parameter is called; the unit stands beside its number. */
export const parameterName = ({ key }: Shape): string => limitWords.parameters[key] ?? key;

/** So many figures: no 0.30000000000000004. */
function tidy(value: number, figures = 9): number {
  return Number(value.toPrecision(figures));
}
