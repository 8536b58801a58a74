import type { CauseId } from './causes.ts';
import type { Witness } from './observations.ts';
import { likelihood } from './outcomeWeights.ts';

/** Chance of each cause; sums to 1. */
export type Belief = ReadonlyMap<CauseId, number>;

/**
 * Naive Bayes: the chance of each cause from the prior and every witness, as if the witnesses knew nothing of each
 * other beyond their `share`. Summed as logarithms so that many witnesses do not underflow.
 */
export function posterior(prior: Belief, witnesses: readonly Witness[]): Belief {
  const logs = [...prior].map(([cause, chance]) => {
    const told = witnesses.map((one) => one.share * Math.log(likelihood(one.kind, cause, one.weights)));
    return [cause, Math.log(chance) + told.reduce((sum, log) => sum + log, 0)] as const;
  });
  return normalised(logs);
}

function normalised(logs: readonly (readonly [CauseId, number])[]): Belief {
  const highest = Math.max(...logs.map(([, log]) => log));
  const raised = logs.map(([cause, log]) => [cause, Math.exp(log - highest)] as const);
  const sum = raised.reduce((total, [, value]) => total + value, 0);
  return new Map(raised.map(([cause, value]) => [cause, value / sum]));
}

/** How undecided a belief is, in bits: 0 when one cause is certain. */
export function entropyBits(belief: Belief): number {
  return [...belief.values()].reduce((sum, chance) => sum - (chance > 0 ? chance * Math.log2(chance) : 0), 0);
}
