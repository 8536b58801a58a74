import { type CauseId, causeNames } from './causes.ts';

/** `clear`: one cause stands out. `two`: one of two. `open`: nothing known separates the causes. */
export type Verdict = 'clear' | 'two' | 'open';

interface Likely {
  readonly cause: CauseId;
  readonly chance: number;
}

/** Levels from which the ranking may be said out loud (judgement; to be held against hit rates on the bench). */
export const verdictLevels = { clearFrom: 0.55, clearTimesSecond: 2, twoFrom: 0.6 } as const;

/**
 * How much the ranking may claim. Causes come likeliest first. "Spent" is never clear without a moisture measurement:
 * cooling alone proves nothing, a dry pile looks finished (The Composting Handbook).
 */
export function verdictOf(
  [first, second]: readonly [Likely, Likely, ...Likely[]],
  hasMoistureEvidence: boolean,
): Verdict {
  const stands = first.chance >= verdictLevels.clearTimesSecond * second.chance;
  if (first.cause === 'other') return 'open';
  const mayBeClear = first.cause !== 'spent' || hasMoistureEvidence;
  if (mayBeClear && first.chance >= verdictLevels.clearFrom && stands) return 'clear';
  return first.chance + second.chance >= verdictLevels.twoFrom && second.cause !== 'other' ? 'two' : 'open';
}

/** The verdict in a sentence for people. */
export function summaryOf(
  verdict: Verdict,
  [first, second]: readonly [Likely, Likely, ...Likely[]],
  hasEvidence: boolean,
): string {
  const of = ({ cause, chance }: Likely) => `${causeNames[cause]} (${percent(chance)})`;
  if (verdict === 'clear') return `Most likely: ${of(first)}.`;
  if (verdict === 'two') return `Either ${of(first)} or ${of(second)}.`;
  return hasEvidence
    ? `Cannot tell yet: what is known does not separate the causes. First guesses: ${of(first)}, ${of(second)}.`
    : 'Cannot tell yet: nothing is known that separates the causes.';
}

function percent(chance: number): string {
  return `${Math.round(chance * 100)} %`;
}
