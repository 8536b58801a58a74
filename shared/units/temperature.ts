import type { TemperatureUnit } from '../yard/yard.ts';

/** A temperature in Celsius from one in Fahrenheit; exact by definition (131 F is 55 C). */
export function celsiusFromFahrenheit(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9;
}

/** A temperature in Fahrenheit from one in Celsius; exact by definition. */
export function fahrenheitFromCelsius(celsius: number): number {
  return (celsius * 9) / 5 + 32;
}

/** A temperature difference in Celsius from one in Fahrenheit: no offset of 32. */
export function celsiusDifferenceFromFahrenheit(fahrenheitDifference: number): number {
  return (fahrenheitDifference * 5) / 9;
}

/** A temperature difference in Fahrenheit from one in Celsius: no offset of 32, so a rise of 10 C is 18 F. */
export function fahrenheitDifferenceFromCelsius(celsiusDifference: number): number {
  return (celsiusDifference * 9) / 5;
}

export interface TemperatureFormat {
  readonly unit: TemperatureUnit;
  /** Digits after the decimal point; 0 when left out. */
  readonly decimals?: number;
  /** `true` writes "55 °C"; left out or `false` writes "55 C", which every phone and text-message alphabet can show. */
  readonly degreeSign?: boolean;
}

/** A temperature as plain text with its unit, e.g. `55 C` or `131 F`. Takes Celsius; the unit is the reader's. */
export function formatTemperature(celsius: number, format: TemperatureFormat): string {
  const value = format.unit === 'F' ? fahrenheitFromCelsius(celsius) : celsius;
  return withUnit(value, format);
}

/** A temperature difference as plain text with its unit, e.g. `10 C` or `18 F`. Takes a difference in Celsius. */
export function formatTemperatureDifference(celsiusDifference: number, format: TemperatureFormat): string {
  const value = format.unit === 'F' ? fahrenheitDifferenceFromCelsius(celsiusDifference) : celsiusDifference;
  return withUnit(value, format);
}

function withUnit(value: number, format: TemperatureFormat): string {
  const digits = value.toFixed(format.decimals ?? 0);
  // "-0" would make a reader look for frost that is not there.
  const text = Number(digits) === 0 ? digits.replace('-', '') : digits;
  return `${text} ${format.degreeSign === true ? '°' : ''}${format.unit}`;
}
