import { requireBetween } from '../allowed.ts';

export const sensorClasses = [
  'pt100-aa',
  'pt100-a',
  'pt100-b',
  'pt100-c',
  'thermocouple-t-1',
  'thermocouple-t-2',
  'thermocouple-k-1',
  'thermocouple-k-2',
  'digital',
] as const;

export type SensorClass = (typeof sensorClasses)[number];

interface ToleranceRule {
  readonly name: string;
  readonly source: string;
  readonly atCelsius: (celsius: number) => number;
}

/** Base and slope of a class whose tolerance grows with the distance from the ice point. */
function growing(name: string, base: number, slope: number): ToleranceRule {
  return { name, source: 'IEC 60751', atCelsius: (celsius) => base + slope * Math.abs(celsius) };
}

function fixed(name: string, tolerance: number): ToleranceRule {
  return { name, source: 'IEC 60584-1', atCelsius: () => tolerance };
}

const digital: ToleranceRule = {
  name: 'digital one-wire sensor',
  source: 'component datasheet (0.5 C band confirmed, wider bands recalled)',
  atCelsius: digitalTolerance,
};

/** Tolerances over the range a pile uses, from the sanitation reference 9.3; all from memory (unconfirmed) unless said. */
export const toleranceRules: Readonly<Record<SensorClass, ToleranceRule>> = {
  'pt100-aa': growing('Pt100 class AA', 0.1, 0.0017),
  'pt100-a': growing('Pt100 class A', 0.15, 0.002),
  'pt100-b': growing('Pt100 class B', 0.3, 0.005),
  'pt100-c': growing('Pt100 class C', 0.6, 0.01),
  'thermocouple-t-1': fixed('Thermocouple T class 1', 0.5),
  'thermocouple-t-2': fixed('Thermocouple T class 2', 1),
  'thermocouple-k-1': fixed('Thermocouple K class 1', 1.5),
  'thermocouple-k-2': fixed('Thermocouple K class 2', 2.5),
  digital,
};

function digitalTolerance(celsius: number): number {
  if (celsius >= -10 && celsius <= 85) return 0.5;
  return celsius >= -30 && celsius <= 100 ? 1 : 2;
}

/** Half-width of what a sensor of this class may be wrong by, Celsius, at a temperature of -55 to 125 C. */
export function sensorTolerance(sensor: SensorClass, celsius: number): number {
  requireBetween('celsius', celsius, -55, 125);
  return toleranceRules[sensor].atCelsius(celsius);
}
