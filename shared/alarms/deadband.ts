/**
 * High limit with deadband: beyond when above the limit; once active, back only when below limit minus deadband
 * (exactly on it is not back; reference pack A-2, C-50).
 */
export function isBeyondHigh(value: number, limit: number, deadband: number, wasActive: boolean): boolean {
  return wasActive ? value >= limit - deadband : value > limit;
}

/** Low limit with deadband, the mirror image: back only when above limit plus deadband. */
export function isBeyondLow(value: number, limit: number, deadband: number, wasActive: boolean): boolean {
  return wasActive ? value <= limit + deadband : value < limit;
}
