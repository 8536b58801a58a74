/**
 * The time-temperature equations of 40 CFR 503.32(a)(3), for information only: they are not a composting rule
 * (Indiana's adoption, 327 IAC 6.1-4-13, says "except for composting") and never mark a pile sanitised.
 */

/** Equation 2 is for material of 7 % solids or more (every pile); equation 3 for thin slurries. */
export type TimeTemperatureEquation = 2 | 3;

const coefficients: Readonly<Record<TimeTemperatureEquation, number>> = { 2: 131_700_000, 3: 50_070_000 };

/**
 * Days that a temperature must be held by the bare equation, with neither range nor least time applied:
 * D = coefficient / 10^(0.1400 t). Source: 40 CFR 503.32(a)(3), confirmed through state adoptions.
 */
export function daysByEquation(equation: TimeTemperatureEquation, celsius: number): number {
  return coefficients[equation] / 10 ** (0.14 * celsius);
}

export type TimeTemperatureRegime = 'A' | 'B' | 'C' | 'D';

interface Regime {
  readonly equation: TimeTemperatureEquation;
  readonly leastMinutes: number;
  /** Regime C covers only times shorter than this. */
  readonly belowMinutes: number;
}

const regimes: Readonly<Record<TimeTemperatureRegime, Regime>> = {
  A: { equation: 2, leastMinutes: 20, belowMinutes: Number.POSITIVE_INFINITY },
  B: { equation: 2, leastMinutes: 0.25, belowMinutes: Number.POSITIVE_INFINITY },
  C: { equation: 2, leastMinutes: 0.25, belowMinutes: 30 },
  D: { equation: 3, leastMinutes: 30, belowMinutes: Number.POSITIVE_INFINITY },
};

/**
 * Days a temperature must be held under one regime of 503.32(a)(3), least time applied; `null` where the regime does
 * not apply (below 50 C, or regime C when half an hour or more would be needed). A and B are for 7 % solids or more
 * (B: small particles in warmed gas), C and D for less.
 */
export function daysByRegime(regime: TimeTemperatureRegime, celsius: number): number | null {
  const { equation, leastMinutes, belowMinutes } = regimes[regime];
  const minutes = daysByEquation(equation, celsius) * 1440;
  if (!(celsius >= 50) || minutes >= belowMinutes) return null;
  return Math.max(minutes, leastMinutes) / 1440;
}
