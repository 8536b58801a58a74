import {
  type CardinalTemperatures,
  ctmiTemperatureFactor,
  haugPeakCelsius,
  haugTemperatureFactor,
} from '../kinetics/temperatureFactor.ts';
import type { KineticParameters } from './parameters.ts';

/** Cool-loving microbes that start a pile (ours, after common mesophile figures). */
const mesophiles: CardinalTemperatures = { minimumCelsius: 0, optimumCelsius: 33, maximumCelsius: 48 };

/** Share 0..1 of the best rate at a temperature, hot and cool-loving microbes together. */
export function warmthFactor(
  celsius: number,
  kinetics: Pick<KineticParameters, 'response' | 'mesophilicShareFraction'>,
): number {
  if (kinetics.response.kind === 'haug')
    return haugTemperatureFactor(celsius) / haugTemperatureFactor(haugPeakCelsius);
  const hot = ctmiTemperatureFactor(celsius, kinetics.response.cardinal);
  return Math.max(hot, kinetics.mesophilicShareFraction * ctmiTemperatureFactor(celsius, mesophiles));
}
