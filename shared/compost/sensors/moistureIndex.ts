/** Raw readings of one probe with its own supply and converter: in air or dry material, and in water or soaked material. */
export interface MoistureTwoPoint {
  readonly dryRaw: number;
  readonly wetRaw: number;
}

export interface MoistureIndex {
  /** 0 dry to 1 soaked, held inside those ends. A relative index, not water content. */
  readonly index: number;
  /** Beyond both points by more than a twentieth of their distance: the probe has lost contact or its points are old. */
  readonly outside: boolean;
}

/**
 * Relative wetness from the two points: (dry - raw) / (dry - wet), whichever way raw runs (general practice,
 * unconfirmed). Throws `RangeError` when the two points are the same.
 */
export function moistureIndex(raw: number, points: MoistureTwoPoint): MoistureIndex {
  const span = points.dryRaw - points.wetRaw;
  if (span === 0 || !Number.isFinite(span)) {
    throw new RangeError(`dryRaw ${points.dryRaw} and wetRaw ${points.wetRaw} must be two different numbers`);
  }
  const share = (points.dryRaw - raw) / span;
  return { index: Math.min(1, Math.max(0, share)), outside: share < -0.05 || share > 1.05 };
}
