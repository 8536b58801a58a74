/**
 * Saturation pressure of water vapour, pascal, over ice and over liquid water.
 *
 * Source: Hyland & Wexler 1983 as printed in ASHRAE Fundamentals ch. 1 (reference pack 6a, 6b; constants seen).
 * The Magnus form (Sonntag 1990, pack 6c) is kept for comparison only: at 70 C it already reads 0.6 % high.
 */
import { requireBetween } from './allowed.ts';

const kelvinAtZeroCelsius = 273.15;
/** Triple point of water: at and below it vapour is in balance with ice, above it with liquid. */
const triplePointCelsius = 0.01;

/** Over ice at or below the triple point, over liquid water above it. Valid -100 to 200 C; pascal. */
export function saturationPressure(temperatureCelsius: number): number {
  requireBetween('temperatureCelsius', temperatureCelsius, -100, 200);
  return temperatureCelsius <= triplePointCelsius
    ? saturationPressureOverIce(temperatureCelsius)
    : saturationPressureOverWater(temperatureCelsius);
}

/** Over ice, -100 to 0.01 C; pascal (pack 6a). Range is not checked here: this is the hot path of the pile model. */
export function saturationPressureOverIce(temperatureCelsius: number): number {
  const kelvin = temperatureCelsius + kelvinAtZeroCelsius;
  return Math.exp(
    -5674.5359 / kelvin +
      6.3925247 -
      0.009677843 * kelvin +
      6.2215701e-7 * kelvin ** 2 +
      2.0747825e-9 * kelvin ** 3 -
      9.484024e-13 * kelvin ** 4 +
      4.1635019 * Math.log(kelvin),
  );
}

/** Over liquid water, 0 to 200 C (below 0 C: supercooled water); pascal (pack 6b). Range is not checked here. */
export function saturationPressureOverWater(temperatureCelsius: number): number {
  const kelvin = temperatureCelsius + kelvinAtZeroCelsius;
  return Math.exp(
    -5800.2206 / kelvin +
      1.3914993 -
      0.048640239 * kelvin +
      4.1764768e-5 * kelvin ** 2 -
      1.4452093e-8 * kelvin ** 3 +
      6.5459673 * Math.log(kelvin),
  );
}

/** Magnus form over liquid water with Sonntag's 1990 constants (pack 6c); pascal. For comparison, not for hot piles. */
export function saturationPressureMagnus(temperatureCelsius: number): number {
  return 611.2 * Math.exp((17.62 * temperatureCelsius) / (243.12 + temperatureCelsius));
}
