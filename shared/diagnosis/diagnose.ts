import type { TemperatureUnit } from '../yard/yard.ts';
import type { Situation } from './advice/safety.ts';
import { type CauseId, causeNames } from './causes.ts';
import { type CauseEvidence, evidenceFor } from './evidence.ts';
import { bestCheck, type WorthwhileCheck } from './informationGain.ts';
import { type Observations, witnessesOf } from './observations.ts';
import { type Belief, posterior } from './posterior.ts';
import { priorFor } from './priors.ts';
import type { Trouble } from './trouble.ts';
import { summaryOf, type Verdict, verdictOf } from './verdict.ts';

/** A cause with its chance and what speaks for and against it. */
export interface RankedCause {
  readonly cause: CauseId;
  readonly name: string;
  readonly chance: number;
  readonly for: readonly CauseEvidence[];
  readonly against: readonly CauseEvidence[];
}

export interface Diagnosis {
  readonly trouble: Trouble;
  /** Likeliest first; the chances sum to 1. */
  readonly causes: readonly [RankedCause, RankedCause, ...RankedCause[]];
  readonly verdict: Verdict;
  /** The verdict in words for people. */
  readonly summary: string;
  /** The one observation that would best tell the causes apart; null when none that may be asked for does. */
  readonly nextCheck: WorthwhileCheck | null;
}

/**
 * Ranks the causes of a trouble by naive Bayes over a readable table: a prior for each trouble and method
 * (`priors.ts`), and for each kind of observation a row of chances for each cause (`tables/`). Every chance is
 * judgement; where a direction or limit comes from stands beside it. What is not known is left out, never guessed.
 *
 * This folder is of its own in `shared` because three callers ask the same question with different knowledge: live
 * rules with a pile's window, replay in the browser with a stretch of its past, and benches with invented piles. So it
 * knows neither windows nor alarms: `observationsFrom` takes plain facts that each of them can fill, and `advice/`
 * says what to do about a cause without knowing how it was found.
 *
 * Throws ObservationError when an observation is not one its kind allows.
 */
export function diagnose(
  trouble: Trouble,
  observations: Observations,
  situation: Situation,
  unit: TemperatureUnit = 'C',
): Diagnosis {
  const prior = priorFor(trouble, situation.method);
  const witnesses = witnessesOf(observations, { trouble, method: situation.method });
  const belief = posterior(prior, witnesses);
  const causes = ranked(belief).map(({ cause, chance }) => ({
    cause,
    name: causeNames[cause],
    chance,
    ...evidenceFor(cause, prior, witnesses, unit),
  })) as unknown as Diagnosis['causes'];
  const verdict = verdictOf(causes, situation.moisture !== 'unknown');
  const hasEvidence = causes.some((one) => one.for.length + one.against.length > 0);
  return {
    trouble,
    causes,
    verdict,
    summary: summaryOf(verdict, causes, hasEvidence),
    nextCheck: bestCheck(belief, witnesses, trouble, situation),
  };
}

/** Likeliest first; equals in the order of the prior. */
function ranked(belief: Belief): { cause: CauseId; chance: number }[] {
  return [...belief]
    .map(([cause, chance]) => ({ cause, chance }))
    .sort((one, other) => other.chance - one.chance);
}
