import { requireBetween } from '../allowed.ts';
import { standardPressure } from '../psychrometrics.ts';
import { saturationPressureOverWater } from '../saturationPressure.ts';

/**
 * Boiling point of pure water, Celsius, at a pressure in pascal (20 to 120 kPa): the temperature whose saturation
 * pressure (Hyland and Wexler) equals it. Within 0.01 C of the IAPWS-IF97 table of the sanitation reference 9.2.
 */
export function boilingPointAtPressure(pressurePascal: number): number {
  requireBetween('pressurePascal', pressurePascal, 20_000, 120_000);
  let [low, high] = [50, 110];
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (saturationPressureOverWater(middle) < pressurePascal) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Boiling point in the standard atmosphere at an altitude in metres. Weather moves it by about 0.28 C per kPa near sea
 * level, so use the real station pressure where it is known.
 */
export function boilingPointAtAltitude(altitudeMetres: number): number {
  return boilingPointAtPressure(standardPressure(altitudeMetres));
}
