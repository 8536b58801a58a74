import type { ChannelName, Quantity } from '../yard/yard.ts';
import type { Quality, QualityReason, Reading } from './reading.ts';
import type { SensorDescription } from './sensorDescription.ts';

/** A reading about to be judged: what the probe said and what calibration makes of it. */
export interface CandidateReading {
  readonly timeMs: number;
  readonly rawValue: number;
  readonly value: number;
  readonly flags?: {
    /** The probe itself says the sensor's check sum was wrong. */
    readonly crcFailed?: boolean;
    /** The probe itself says this is its first reading since it started. */
    readonly restarted?: boolean;
  };
}

/** Recent readings of another channel of the same quantity. */
export interface NeighbourChannel {
  readonly channel: ChannelName;
  /** In time order. */
  readonly history: readonly Reading[];
}

export interface QualityInput {
  readonly candidate: CandidateReading;
  readonly quantity: Quantity;
  /** The channel's own readings in time order, without the candidate; for late data some may be later than it. */
  readonly history: readonly Reading[];
  /** Other channels of the same quantity in the same pile. */
  readonly neighbours: readonly NeighbourChannel[];
  /** Channels meant to measure the very same spot. */
  readonly pairs?: readonly NeighbourChannel[];
  readonly nowMs: number;
  readonly sensor: SensorDescription;
  /** Since when the journal excuses jumps (opened, turned, watered, probe pulled); null when it does not. */
  readonly handledSinceMs: number | null;
}

export interface QualityVerdict {
  readonly quality: Quality;
  readonly reason: QualityReason | null;
}
