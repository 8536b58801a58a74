import { probeOwnsName } from '../../shared/senml/channelName.ts';
import type { ResolvedRecord } from '../../shared/senml/resolvedRecord.ts';
import { canonicaliseSenmlValue } from '../../shared/units/senmlUnits.ts';
import type { ChannelName, Quantity } from '../../shared/yard/yard.ts';
import type { ChannelKnowledge } from './yardKnowledge.ts';

const dayMs = 86_400_000;
/** A clock further ahead than this is not fast but wrong; what it says cannot even be kept as a bad reading. Ours. */
const mostAheadMs = 7 * dayMs;
/** Nothing that is composted now was measured longer ago; a clock that was never set shows such times. Ours. */
const mostBehindMs = 3650 * dayMs;

/** A measurement that may become a reading: named, timed, in canonical units, calibrated; not yet judged. */
export interface Candidate {
  readonly channel: ChannelName;
  readonly quantity: Quantity;
  readonly timeMs: number;
  readonly rawValue: number;
  readonly value: number;
}

/** A value with the name it claims, from SenML or from a mapped message. */
export type ClaimedValue = Pick<ResolvedRecord, 'name' | 'unit' | 'timeMs'> & { readonly value: number };

export type CandidateResult =
  | { readonly ok: true; readonly candidate: Candidate }
  | { readonly ok: false; readonly reason: string };

/**
 * Checks one value against the probe it came from and turns it into a candidate. The name in a payload is only a claim:
 * without this check one probe could write another's history.
 */
export function makeCandidate(
  claimed: ClaimedValue,
  probeId: string,
  nowMs: number,
  knowledge: ChannelKnowledge,
): CandidateResult {
  const { name, timeMs } = claimed;
  if (!probeOwnsName(probeId, name)) {
    return refused(`name "${name}" does not belong to probe ${probeId}; allowed: ${probeId}_<channel>`);
  }
  const timeProblem = problemOfTime(timeMs, nowMs);
  if (timeProblem !== null) return refused(`${name}: ${timeProblem}`);
  const canonical = canonicaliseSenmlValue(claimed.unit ?? knowledge.assumedUnit, claimed.value);
  if (!canonical.ok) return refused(`${name}: ${canonical.problem}`);
  const { gain, offset } = knowledge.calibration ?? { gain: 1, offset: 0 };
  const rawValue = canonical.value;
  const quantity = knowledge.quantity ?? canonical.quantity;
  const value = rawValue * gain + offset;
  return { ok: true, candidate: { channel: name, quantity, timeMs, rawValue, value } };
}

function problemOfTime(timeMs: number, nowMs: number): string | null {
  if (timeMs > nowMs + mostAheadMs) {
    return `time ${isoTime(timeMs)} is more than 7 days in the future; set the probe's clock`;
  }
  if (timeMs < nowMs - mostBehindMs) {
    return `time ${isoTime(timeMs)} is more than 10 years ago; set the probe's clock`;
  }
  return null;
}

function isoTime(timeMs: number): string {
  return new Date(timeMs).toISOString();
}

function refused(reason: string): CandidateResult {
  return { ok: false, reason };
}
