import { evaluateSanitisation } from '../compost/sanitisation/evaluate.ts';
import { defaultSanitisationPolicy } from '../compost/sanitisation/policy.ts';
import type { SanitisationResult } from '../compost/sanitisation/result.ts';
import type { RuleSet } from '../compost/sanitisation/ruleSet.ts';
import { findRuleSet } from '../compost/sanitisation/ruleSets.ts';
import type { PileMethod } from '../yard/method.ts';
import type { ChannelTrack } from './channelTrack.ts';
import type { PileFacts } from './pileWindow.ts';
import { hotHoursAt, inputOf, type SanitisationRows } from './sanitisationRows.ts';

/** How far a pile's time-temperature record has come, for screens and conditions; never more than "consistent with". */
export interface SanitisationStanding {
  readonly ruleId: string;
  readonly outcome: SanitisationResult['outcome'];
  /** 0..1 of the record of every watched zone. */
  readonly progress: number;
  /** When the record that may be expected of this method was complete; in a static cage that is the core's own. */
  readonly recordAtMs: number | null;
  /** Hours above 55 C by then. */
  readonly hotHoursThen: number;
  /** Words for people on what is still missing, longest first; empty when complete. */
  readonly missing: readonly string[];
}

/**
 * The rule whose clock is shown for a method: further reduction of pathogens under 40 CFR Part 503, the one most other
 * rules repeat. Null where nothing is asked of the heat. The record screens judge all rules.
 */
const ruleIds: Readonly<Record<PileMethod, string | null>> = {
  'static-cage': 'us-pfrp-static',
  'hot-bin': 'us-pfrp-in-vessel',
  'turned-windrow': 'us-pfrp-windrow',
  'aerated-static-pile': 'us-pfrp-static',
  'worm-bed': null,
  'curing-heap': null,
  'leaf-heap': null,
};

export function shownRule(method: PileMethod): RuleSet | null {
  const id = ruleIds[method];
  return id === null ? null : findRuleSet(id);
}

/** Lowest temperature that counts toward a rule, Celsius. */
export function countsFromCelsius(rule: RuleSet): number {
  return Math.min(...rule.paths.map((path) => path.band.lowerCelsius));
}

const coreOnly = { ...defaultSanitisationPolicy, zones: ['core'] } as const;

/** Judges the kept hours of a pile against the rule of its method. */
export function standingOf(
  rule: RuleSet,
  rows: SanitisationRows,
  facts: PileFacts,
  tracks: readonly ChannelTrack[],
  nowMs: number,
): SanitisationStanding {
  const input = inputOf(rows, facts, tracks, nowMs);
  const result = evaluateSanitisation(rule, input);
  const expected = facts.pile.method === 'static-cage' ? evaluateSanitisation(rule, input, coreOnly) : result;
  const recordAtMs = expected.satisfiedAtMs ?? expected.coreRecordAtMs;
  return {
    ruleId: rule.id,
    outcome: result.outcome,
    progress: result.progress,
    recordAtMs,
    hotHoursThen: recordAtMs === null ? 0 : hotHoursAt(rows, recordAtMs),
    missing: result.missing,
  };
}
