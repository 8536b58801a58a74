/** A stream of even numbers 0 up to but not 1, given by the caller so that the same seed gives the same forecast. */
export type RandomSource = () => number;

/** One standard normal number from two even ones (Box & Muller 1958). */
export function normalFrom(random: RandomSource): number {
  const radius = Math.sqrt(-2 * Math.log(1 - random()));
  return radius * Math.cos(2 * Math.PI * random());
}
