import type { Quantity } from '../yard/yard.ts';

/** What a kind of sensor can do, in the canonical unit of its quantity; every number can be set per channel. */
export interface SensorDescription {
  /** Lowest and highest value the sensor can honestly report. */
  readonly range: { readonly least: number; readonly most: number };
  /** Step between two neighbouring values. */
  readonly resolution: number;
  /** Least spread believed when looking for outliers: the accuracy, since a step within it is no news. */
  readonly noiseFloor: number;
  /** Value shown from power-up until the first measurement; null when the sensor has none. */
  readonly powerOnValue: number | null;
  /** Fastest believable change in five minutes; null when any change can be real (water poured on a probe). */
  readonly maxRatePerFiveMinutes: number | null;
  /** How far ahead of our clock a probe's clock may run. */
  readonly futureToleranceMs: number;
  /** No change beyond the resolution for this long counts as stuck, if neighbours moved; null when flat is normal. */
  readonly stuckAfterHours: number | null;
  /** How much a neighbour must have moved meanwhile. */
  readonly neighbourMove: number;
  /** How far two channels at one spot may differ; null when they are not to be compared. */
  readonly pairTolerance: number | null;
  /** When the calibration should have been checked again; null when there is none to check. */
  readonly calibrationDueMs: number | null;
}

const tenMinutesMs = 10 * 60_000;

const anySensor: SensorDescription = {
  range: { least: -Number.MAX_VALUE, most: Number.MAX_VALUE },
  resolution: 0,
  noiseFloor: 0,
  powerOnValue: null,
  maxRatePerFiveMinutes: null,
  futureToleranceMs: tenMinutesMs,
  stuckAfterHours: null,
  neighbourMove: 0,
  pairTolerance: null,
  calibrationDueMs: null,
};

/**
 * DS18B20-type digital thermometer. Range, resolution at 12 bits, accuracy from -10 to +85 C and power-on value: its
 * datasheet (reference pack P-1, P-3, P-5). 5 C in 5 minutes: the house plan, section 5. Ours, without a source: six
 * hours to be stuck, 2 C for a neighbour to have moved, 3 C between two probes at one spot.
 */
export const digitalThermometer: SensorDescription = {
  ...anySensor,
  range: { least: -55, most: 125 },
  resolution: 0.0625,
  noiseFloor: 0.5,
  powerOnValue: 85,
  maxRatePerFiveMinutes: 5,
  stuckAfterHours: 6,
  neighbourMove: 2,
  pairTolerance: 3,
};

/** Capacitive moisture probe after calibration. The tenth between a pair is ours: such probes vary (pack P-20). */
const moistureProbe: SensorDescription = {
  ...anySensor,
  range: { least: 0, most: 1 },
  resolution: 0.005,
  noiseFloor: 0.02,
  pairTolerance: 0.1,
};

const fractionSensor: SensorDescription = { ...anySensor, range: { least: 0, most: 1 } };

/** What is assumed of a channel until its set-up says more. */
export const defaultSensors: Readonly<Record<Quantity, SensorDescription>> = {
  temperature: digitalThermometer,
  moisture: moistureProbe,
  'relative-humidity': fractionSensor,
  battery: fractionSensor,
  // No cell or small solar supply of a probe is outside this: ours, without a source.
  voltage: { ...anySensor, range: { least: 0, most: 60 } },
  other: anySensor,
};
