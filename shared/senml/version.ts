/** Version a pack has when it names none (RFC 8428 section 4.4): features 1 and 3 of RFC 9100. */
export const defaultVersion = 10;
/** RFC 9100 feature code of the secondary units of RFC 8798. */
export const secondaryUnitsFeature = 4;
/** Feature codes this software understands beyond the two that are always set. */
export const ownFeatures: readonly number[] = [secondaryUnitsFeature];

const highestFeature = 52;

/** Whether a version's bitmap has a feature set (RFC 9100 section 2). Versions up to 2^53, so no 32-bit operators. */
export function hasFeature(version: number, feature: number): boolean {
  return version >= defaultVersion && Math.floor(version / 2 ** feature) % 2 === 1;
}

/**
 * Whether a pack of this version may be read.
 *
 * From 10 upwards the version is the RFC 9100 bitmap: features 1 and 3 set, 0 and 2 clear, and every other set feature
 * understood. Below 10 the bitmap cannot be meant (10 is its least value), so the older rule of RFC 8428 section 4.4
 * holds: refuse only what is larger than we understand. That keeps RFC 8428's own example, which says 5, readable.
 */
export function isReadableVersion(version: number, understood: readonly number[] = ownFeatures): boolean {
  if (version < defaultVersion) return version >= 1;
  const fixedBits = [false, true, false, true];
  if (fixedBits.some((expected, bit) => hasFeature(version, bit) !== expected)) return false;
  for (let feature = 4; feature <= highestFeature; feature++) {
    if (hasFeature(version, feature) && !understood.includes(feature)) return false;
  }
  return true;
}
