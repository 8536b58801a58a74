import type { PileMethod } from '../yard/method.ts';
import type { KindId, ObservationKind, Seen } from './kind.ts';
import { outcomeWeights } from './outcomeWeights.ts';
import { observationKinds } from './tables/allKinds.ts';
import type { Trouble } from './trouble.ts';

/**
 * What is known of a troubled pile. What is not known is left out: it is never guessed and never counts. Numbers in
 * the units their names say; smell, look and the like by the outcomes of their kind.
 */
export type Observations = { readonly [Kind in KindId]?: Seen };

/** One observation made ready for the sums. */
export interface Witness {
  readonly kind: ObservationKind;
  readonly seen: Seen;
  /** How far it is each outcome. */
  readonly weights: readonly number[];
  /** How much it counts: less than 1 beside another witness of the same matter. */
  readonly share: number;
}

/** Share of each of n witnesses of one matter: together 1, 1.5, 1.8, 2 facts. Judgement. */
const shares = [1, 1, 0.75, 0.6, 0.5] as const;

export function shareAmong(witnesses: number): number {
  return shares[Math.min(witnesses, shares.length - 1)]!;
}

/** The pile and what is asked of it. */
export interface Question {
  readonly trouble: Trouble;
  readonly method: PileMethod;
}

/** The observations that speak to a question, always in the order of the table. Throws ObservationError. */
export function witnessesOf(
  observations: Observations,
  { trouble, method }: Question,
  kinds: readonly ObservationKind[] = observationKinds,
): Witness[] {
  const known = kinds.filter(
    (kind) => observations[kind.id] !== undefined && kind.troubles.includes(trouble),
  );
  return known.map((kind) => {
    const seen = observations[kind.id]!;
    const share = shareAmong(known.filter((other) => other.matter === kind.matter).length);
    return { kind, seen, weights: outcomeWeights(kind, seen, method), share };
  });
}
