import type { ChannelName } from '../yard/yard.ts';

export type Quality = 'good' | 'suspect' | 'bad';

/** Why a reading is not `good`; the words people see are in `qualityReasonTexts`. */
export const qualityReasons = [
  'out-of-range',
  'did-not-answer',
  'conversion-failed',
  'crc-failed',
  'power-on-value',
  'bus-stuck-low',
  'future-time',
  'outlier',
  'impossible-rate',
  'stuck',
  'disagrees-with-pair',
  'calibration-stale',
] as const;
export type QualityReason = (typeof qualityReasons)[number];

/**
 * One measurement in canonical units: Celsius; fraction 0..1 (moisture wet basis, relative humidity, battery); volt.
 * `rawValue` is what the probe said (unit-converted), `value` has the channel's calibration applied.
 */
export interface Reading {
  readonly channel: ChannelName;
  readonly timeMs: number;
  readonly rawValue: number;
  readonly value: number;
  readonly quality: Quality;
  readonly reason: QualityReason | null;
}

/** A bare (time, value) pair in time order, what most of the pure code works on. */
export interface Sample {
  readonly timeMs: number;
  readonly value: number;
}
