import type { JournalEntry } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { MoistureEvidence } from '../advice/safety.ts';
import { keptWet, moistureAnchors } from '../tables/moisture.ts';
import type { DiagnosisFacts } from './facts.ts';
import { dayMs } from './samples.ts';

/** A squeeze test counts for this long, or until the pile is watered, turned or added to (judgement). */
const squeezeDays = 5;

/** Score of the last squeeze test that still tells of now; null when there is none. */
export function freshSqueeze({ journal, nowMs }: DiagnosisFacts): number | null {
  const past = journal.filter(({ timeMs }) => timeMs <= nowMs && timeMs > nowMs - squeezeDays * dayMs);
  const changed = past.findLastIndex(({ kind }) => ['watered', 'turned', 'added'].includes(kind));
  const test = past.slice(changed + 1).findLast(isSqueeze);
  return test?.value ?? null;
}

const isSqueeze = ({ kind, value }: JournalEntry) => kind === 'squeeze-test' && value !== null;

/** Squeeze score each outcome of the moisture table feels like (judgement). */
const feelsLike = [1, 1.5, 2.3, 3, 4, 5] as const;

/** Whether the hand bears out the moisture probe: within one and a half steps of the score it should feel like. */
export function squeezeAgrees(score: number, fraction: number, method: PileMethod): boolean {
  const anchors = moistureAnchors(method);
  const above = anchors.findIndex((anchor) => anchor >= fraction);
  if (above <= 0) return Math.abs(score - (above === 0 ? feelsLike[0] : feelsLike[5])) < 1.5;
  const share = (fraction - anchors[above - 1]!) / (anchors[above]! - anchors[above - 1]!);
  const feels = feelsLike[above - 1]! + share * (feelsLike[above]! - feelsLike[above - 1]!);
  return Math.abs(score - feels) < 1.5;
}

/** What measurements say of the moisture; an estimate is no evidence, and two that contradict each other are none. */
export function moistureEvidence(facts: DiagnosisFacts): MoistureEvidence {
  const score = freshSqueeze(facts);
  const said = [
    facts.moistureFraction === null ? null : byFraction(facts.moistureFraction, facts.method),
    score === null ? null : byScore(score, facts.method),
  ].filter((one) => one !== null);
  if (said.length === 0 || (said.includes('too-dry') && said.includes('too-wet'))) return 'unknown';
  return said.find((one) => one !== 'fine') ?? 'fine';
}

/** Limits of the reference pack: 40 and about 64 % for hot work; kept-wet piles a step wetter (judgement). */
function byFraction(fraction: number, method: PileMethod): MoistureEvidence {
  const [driest, wettest] = keptWet.includes(method) ? [0.55, 0.78] : [0.4, 0.64];
  if (fraction < driest) return 'too-dry';
  return fraction >= wettest ? 'too-wet' : 'fine';
}

function byScore(score: number, method: PileMethod): MoistureEvidence {
  if (score < 2.5) return 'too-dry';
  return score >= (keptWet.includes(method) ? 4.5 : 3.5) ? 'too-wet' : 'fine';
}
