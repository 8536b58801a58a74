import { fitPile, type PileFit } from '../../shared/compost/forecast/fitPile.ts';
import type { RandomSource } from '../../shared/compost/forecast/random.ts';
import { normalFrom } from '../../shared/compost/forecast/random.ts';
import { type Course, simulateCourse } from '../../shared/compost/pileModel/course.ts';
import { type PileParameters, pileParameters } from '../../shared/compost/pileModel/parameters.ts';
import { yearlyWeather } from '../../shared/compost/pileModel/weather.ts';
import type { Sample } from '../../shared/readings/reading.ts';

const minute = 60_000;

/** A pile whose parameters are drawn apart from what the forecast assumes. */
export function drawnPile(random: RandomSource): PileParameters {
  const between = (low: number, high: number) => low + (high - low) * random();
  const radiusMetres = between(0.45, 0.9);
  return pileParameters({
    shape: { kind: 'cylinder', radiusMetres, heightMetres: between(0.9, 1.5) },
    material: {
      bulkDensityKgPerM3: between(400, 600),
      moistureFraction: between(0.52, 0.66),
      degradableFraction: between(0.45, 0.8),
      fastShareFraction: between(0.25, 0.55),
      fastRatePerDay: between(0.06, 0.2),
      slowRatePerDay: between(0.012, 0.05),
      inoculumFraction: between(0.05, 0.4),
      startCelsius: between(10, 25),
    },
    air: { grainMetres: between(0.0011, 0.0017) },
    surface: { wallResistance: between(0.05, 0.3) },
    ...(random() < 0.5 ? { channels: {} } : {}),
  });
}

/** A simulated course and what a probe with half a degree of noise would have said of it every `stepMinutes`. */
export interface SimulatedPile {
  readonly course: Course;
  readonly core: Sample[];
  readonly air: Sample[];
}

/** Simulates a drawn pile for `days` with weather of its own. */
export function simulatedPile(random: RandomSource, days: number, stepMinutes: number): SimulatedPile {
  const weatherAt = yearlyWeather({
    meanCelsius: 5 + 12 * random(),
    yearlySwingCelsius: 7,
    dailySwingCelsius: 4,
    startDayOfYear: 365 * random(),
  });
  const course = simulateCourse(drawnPile(random), { days, outputStepSeconds: stepMinutes * 60, weatherAt });
  const samples = (values: Float32Array, noise: number): Sample[] =>
    Array.from(values, (value, row) => ({
      timeMs: row * stepMinutes * minute,
      value: value + noise * normalFrom(random),
    }));
  return {
    course,
    core: samples(course.series.coreCelsius, 0.3),
    air: samples(course.series.airCelsius, 0.3),
  };
}

/** Fits the first `days` of a simulated pile. */
export function fitFirstDays(pile: SimulatedPile, days: number): PileFit {
  const untilMs = days * 86_400_000;
  return fitPile({ core: pile.core, air: pile.air, meanAirCelsius: 12, disturbedMs: [], untilMs });
}
