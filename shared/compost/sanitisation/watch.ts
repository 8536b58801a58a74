import type { JournalEntry } from '../../yard/journal.ts';
import type { Position } from '../../yard/yard.ts';
import { type ChannelCoverage, channelCoverage } from './coverage.ts';
import type { PathEvidence } from './evaluateHold.ts';
import type { SanitisationInput } from './input.ts';
import type { SanitisationPolicy } from './policy.ts';
import type { RuleSet } from './ruleSet.ts';
import { stretchFinder } from './stretches.ts';
import { joinZones } from './zones.ts';

/** What was watched in the zones a rule asks for; shared by all rules that ask for the same ones. */
export interface Watched extends PathEvidence {
  readonly zones: readonly Position[];
  readonly coverage: readonly ChannelCoverage[];
  readonly clearedAtMs: number | null;
}

/** Air is never a zone of the pile. A zone asked for but not watched stays required, so it earns nothing. */
export function requiredZones(
  rule: RuleSet,
  input: SanitisationInput,
  policy: SanitisationPolicy,
): Position[] {
  const monitored = input.series.map((series) => series.position).filter((position) => position !== 'air');
  const wanted = policy.zones ?? (rule.zones === 'core' ? (['core'] as const) : monitored);
  return [...new Set(wanted)].sort();
}

/** Joins the zones asked for into one record, with its coverage, and finds when the count began. */
export function watch(
  zones: readonly Position[],
  input: SanitisationInput,
  policy: SanitisationPolicy,
): Watched {
  const series = input.series.filter((one) => zones.includes(one.position));
  const window = { fromMs: input.startedMs, toMs: input.nowMs, maximumGapMs: policy.maximumGapMs };
  const everyZoneHasSeries = zones.every((zone) => series.some((one) => one.position === zone));
  const record = joinZones(everyZoneHasSeries ? series : [], window);
  const clearedAtMs = lastAddition(input);
  const sinceMs = clearedAtMs ?? input.startedMs;
  return {
    zones,
    coverage: series.map((one) => channelCoverage(one, window)),
    clearedAtMs,
    record,
    find: stretchFinder(record, sinceMs),
    turnedMs: timesOf(input, 'turned').filter((timeMs) => timeMs >= sinceMs),
  };
}

function timesOf(input: SanitisationInput, kind: JournalEntry['kind']): number[] {
  const inside = input.journal.filter((entry) => entry.kind === kind && entry.timeMs <= input.nowMs);
  return inside.map((entry) => entry.timeMs).sort((one, other) => one - other);
}

/** The last time raw material went in after the pile was built: it may be unheated, so the count starts again. */
function lastAddition(input: SanitisationInput): number | null {
  return (
    timesOf(input, 'added')
      .filter((timeMs) => timeMs > input.startedMs)
      .at(-1) ?? null
  );
}
