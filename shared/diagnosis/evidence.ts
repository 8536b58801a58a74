import type { TemperatureUnit } from '../yard/yard.ts';
import type { CauseId } from './causes.ts';
import { type KindId, rowOf } from './kind.ts';
import type { Witness } from './observations.ts';
import { likelihood } from './outcomeWeights.ts';
import type { Belief } from './posterior.ts';

/** One observation's word for or against a cause. */
export interface CauseEvidence {
  readonly kind: KindId;
  /** "moisture is 28 %; work slows sharply below 35 to 40 %" */
  readonly text: string;
  /** How many times likelier the observation is with this cause than with the others; below 1 it speaks against. */
  readonly times: number;
  readonly source: string;
}

/** Observations that change a cause's odds by less than this are not worth a line (judgement). */
const worthSaying = 1.25;

/** What speaks for and against a cause, strongest first. Odds are taken against the other causes' prior. */
export function evidenceFor(
  cause: CauseId,
  prior: Belief,
  witnesses: readonly Witness[],
  unit: TemperatureUnit,
): { readonly for: readonly CauseEvidence[]; readonly against: readonly CauseEvidence[] } {
  const all = witnesses.map((witness) => toldBy(witness, cause, prior, unit));
  return {
    for: all.filter((one) => one.times >= worthSaying).sort((one, other) => other.times - one.times),
    against: all.filter((one) => one.times <= 1 / worthSaying).sort((one, other) => one.times - other.times),
  };
}

function toldBy(witness: Witness, cause: CauseId, prior: Belief, unit: TemperatureUnit): CauseEvidence {
  const { kind, seen, weights, share } = witness;
  const others = [...prior].filter(([other]) => other !== cause);
  const total = others.reduce((sum, [, chance]) => sum + chance, 0);
  const rest =
    others.reduce((sum, [other, chance]) => sum + chance * likelihood(kind, other, weights), 0) / total;
  const { expect, source } = rowOf(kind, cause);
  return {
    kind: kind.id,
    text: `${kind.say(seen, unit)}; ${expect}`,
    times: (likelihood(kind, cause, weights) / rest) ** share,
    source,
  };
}
