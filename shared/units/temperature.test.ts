import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  celsiusDifferenceFromFahrenheit,
  celsiusFromFahrenheit,
  fahrenheitDifferenceFromCelsius,
  fahrenheitFromCelsius,
  formatTemperature,
  formatTemperatureDifference,
} from './temperature.ts';

test('a temperature is shown with its unit, in plain letters unless a sign is asked for', () => {
  expect(formatTemperature(55, { unit: 'C' })).toBe('55 C');
  expect(formatTemperature(55, { unit: 'F' })).toBe('131 F');
  expect(formatTemperature(71.06, { unit: 'C', decimals: 1, degreeSign: true })).toBe('71.1 °C');
});

test('just under freezing does not read as minus nothing', () => {
  expect(formatTemperature(-0.2, { unit: 'C' })).toBe('0 C');
  expect(formatTemperature(-0.6, { unit: 'C' })).toBe('-1 C');
});

test('a difference has no offset of 32', () => {
  expect(formatTemperatureDifference(10, { unit: 'F' })).toBe('18 F');
  expect(celsiusDifferenceFromFahrenheit(18)).toBe(10);
});

test('there and back is the same temperature', () => {
  fc.assert(
    fc.property(fc.double({ min: -60, max: 150, noNaN: true }), (celsius) => {
      expect(celsiusFromFahrenheit(fahrenheitFromCelsius(celsius))).toBeCloseTo(celsius, 9);
      expect(celsiusDifferenceFromFahrenheit(fahrenheitDifferenceFromCelsius(celsius))).toBeCloseTo(
        celsius,
        9,
      );
    }),
  );
});
