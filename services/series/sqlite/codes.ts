import { type Quality, type QualityReason, qualityReasons } from '../../../shared/readings/reading.ts';

/** Small integers the database keeps in place of the words. The order is part of the file format: only ever append. */
export const qualities: readonly Quality[] = ['good', 'suspect', 'bad'];

/**
 * Reason words in the order of their stored code minus one (0 = no reason). Kept apart from `qualityReasons`, whose order
 * may change freely; a reason missing here is a mistake the types catch.
 */
const storedReasons = {
  'out-of-range': 1,
  'did-not-answer': 2,
  'conversion-failed': 3,
  'crc-failed': 4,
  'power-on-value': 5,
  'bus-stuck-low': 6,
  'future-time': 7,
  outlier: 8,
  'impossible-rate': 9,
  stuck: 10,
  'disagrees-with-pair': 11,
  'calibration-stale': 12,
} as const satisfies Record<QualityReason, number>;

const reasonByCode = new Map<number, QualityReason>(
  qualityReasons.map((reason) => [storedReasons[reason], reason]),
);

export function qualityCode(quality: Quality): number {
  return qualities.indexOf(quality);
}

export function qualityOf(code: number): Quality {
  return qualities[code] ?? 'bad';
}

export function reasonCode(reason: QualityReason | null): number {
  return reason === null ? 0 : storedReasons[reason];
}

export function reasonOf(code: number): QualityReason | null {
  return reasonByCode.get(code) ?? null;
}
