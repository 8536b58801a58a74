/** Standard normal distribution, as far as trend tests need it. Mathematics as in any textbook; accurate to 1e-13. */

/** Probability that a standard normal value lies beyond +-|z| (two-sided p value). */
export function twoSidedNormalP(z: number): number {
  const distance = Math.abs(z);
  return distance < 3 ? 1 - seriesWithin(distance) : tailBeyond(distance);
}

/** The last answer: trends ask for the same confidence again and again, and the search below is slow. */
let known = { p: 0.05, z: searchZ(0.05) };

/** z that a standard normal value exceeds in absolute value with probability `p`, 0 < p < 1: 1.95996 for 0.05. */
export function normalZForTwoSidedP(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`p is ${p}; allowed is between 0 and 1`);
  if (known.p !== p) known = { p, z: searchZ(p) };
  return known.z;
}

function searchZ(p: number): number {
  let [low, high] = [0, 40];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (twoSidedNormalP(middle) > p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Probability within +-z: the power series of the error function, which converges quickly for small z. */
function seriesWithin(z: number): number {
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-17 * sum; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return Math.sqrt(2 / Math.PI) * Math.exp((-z * z) / 2) * sum;
}

/** Probability beyond +-z by the continued fraction of the upper tail, for z of 3 and more. */
function tailBeyond(z: number): number {
  let fraction = z;
  for (let level = 80; level > 0; level -= 1) fraction = z + level / fraction;
  return (Math.sqrt(2 / Math.PI) * Math.exp((-z * z) / 2)) / fraction;
}
