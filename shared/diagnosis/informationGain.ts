import type { Situation } from './advice/safety.ts';
import type { CauseId } from './causes.ts';
import { availableChecks, type Check } from './checks.ts';
import type { KindId, ObservationKind } from './kind.ts';
import { shareAmong, type Witness } from './observations.ts';
import { likelihood } from './outcomeWeights.ts';
import { type Belief, entropyBits, posterior } from './posterior.ts';
import { observationKinds } from './tables/allKinds.ts';
import type { Trouble } from './trouble.ts';

/** What one answer to a check would mean. */
export interface Answer {
  readonly outcome: string;
  readonly chance: number;
  /** The cause it would put first, and how likely it would then be. */
  readonly cause: CauseId;
  readonly causeChance: number;
}

/** A check and how much it is expected to tell. */
export interface WorthwhileCheck {
  readonly check: Check;
  /** Expected fall of undecidedness, bits. */
  readonly bits: number;
  readonly answers: readonly Answer[];
}

/** Below this a check is not worth asking for (judgement). */
export const leastBits = 0.05;

/**
 * The one check that would best tell the causes apart: the greatest expected gain of information, weighed by how easy
 * the check is. Null when none that may be asked for tells anything.
 */
export function bestCheck(
  belief: Belief,
  witnesses: readonly Witness[],
  trouble: Trouble,
  situation: Situation,
): WorthwhileCheck | null {
  const known = new Set<KindId>(witnesses.map((one) => one.kind.id));
  const gains = availableChecks(trouble, situation, known)
    .map((check) => gainOf(check, belief, witnesses, trouble))
    .filter((gain) => gain !== null && gain.bits >= leastBits) as WorthwhileCheck[];
  return gains.reduce<WorthwhileCheck | null>((best, one) => (worth(one) > worth(best) ? one : best), null);
}

const worth = (gain: WorthwhileCheck | null) => (gain === null ? 0 : gain.bits * gain.check.ease);

/** What a check would tell; null when its kind says nothing about this trouble. */
export function gainOf(
  check: Check,
  belief: Belief,
  witnesses: readonly Witness[],
  trouble: Trouble,
): WorthwhileCheck | null {
  const kind = observationKinds.find((one) => one.id === check.kind)!;
  if (!kind.troubles.includes(trouble)) return null;
  const share = shareAmong(1 + witnesses.filter((one) => one.kind.matter === kind.matter).length);
  const answers = kind.outcomes.map((outcome, index) => answerOf(kind, outcome, index, belief, share));
  const left = answers.reduce((sum, { answer, bits }) => sum + answer.chance * bits, 0);
  return {
    check,
    bits: Math.max(0, entropyBits(belief) - left),
    answers: answers.map(({ answer }) => answer),
  };
}

function answerOf(kind: ObservationKind, outcome: string, index: number, belief: Belief, share: number) {
  const weights = kind.outcomes.map((_, other) => (other === index ? 1 : 0));
  const chance = [...belief].reduce((sum, [cause, p]) => sum + p * likelihood(kind, cause, weights), 0);
  const after = posterior(belief, [{ kind, seen: outcome, weights, share }]);
  const [cause, causeChance] = [...after].reduce((first, one) => (one[1] > first[1] ? one : first));
  return { answer: { outcome, chance, cause, causeChance }, bits: entropyBits(after) };
}
