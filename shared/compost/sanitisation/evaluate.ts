import type { Sample } from '../../readings/reading.ts';
import type { JournalEntry } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { Position } from '../../yard/yard.ts';
import { cautionsFor, type MoistureFlag, moistureFlag } from './cautions.ts';
import { type ChannelCoverage, channelCoverage, type EvidenceRow, evidenceRow } from './coverage.ts';
import { evaluateHold, type PathEvidence } from './evaluateHold.ts';
import { evaluateHoldBeforeTurns } from './evaluateHoldBeforeTurns.ts';
import type { Part, PathOutcome } from './outcome.ts';
import { defaultSanitisationPolicy, type SanitisationPolicy } from './policy.ts';
import { checkPreconditions, type PreconditionCheck } from './preconditions.ts';
import { type RulePath, type RuleSet, ruleStatusWords } from './ruleSet.ts';
import type { ZoneSeries } from './series.ts';
import { stretchFinder } from './stretches.ts';
import { missingWords } from './words.ts';
import { joinZones } from './zones.ts';

export interface SanitisationInput {
  readonly method: PileMethod;
  /** When the pile was built, and the moment the record is read. Nothing outside counts. */
  readonly startedMs: number;
  readonly nowMs: number;
  readonly series: readonly ZoneSeries[];
  readonly journal: readonly Pick<JournalEntry, 'timeMs' | 'kind'>[];
  /** Moisture as wet-basis fraction, in time order; empty when nobody measured it. */
  readonly moisture: readonly Sample[];
  /** Largest piece that went in, where it was written down. */
  readonly largestPieceMetres: number | null;
}

/** Hours under one reading of the probe: as it says, or with its tolerance kept back. */
export interface Totals {
  readonly totalHours: number;
  readonly bestPeriodHours: number;
  readonly satisfiedAtMs: number | null;
}

export interface SanitisationResult {
  readonly ruleId: string;
  readonly title: string;
  readonly source: string;
  /** "confirmed", "confirmed from a secondary source" or "unconfirmed". */
  readonly statusWords: string;
  /** Never more than "record consistent with". `core-record-only`: the core alone met it in a pile nobody turns. */
  readonly outcome: 'consistent' | 'core-record-only' | 'not-yet';
  readonly pathId: string;
  readonly progress: number;
  readonly satisfiedAtMs: number | null;
  /** When the core's own record met the rule, in a static cage with no other zone watched. */
  readonly coreRecordAtMs: number | null;
  readonly parts: readonly Part[];
  readonly missing: readonly string[];
  readonly cautions: readonly string[];
  readonly preconditions: readonly PreconditionCheck[];
  readonly moisture: MoistureFlag;
  readonly zonesCounted: readonly Position[];
  readonly plain: Totals;
  readonly guarded: Totals;
  readonly evidence: readonly EvidenceRow[];
  readonly coverage: readonly ChannelCoverage[];
  /** Hours before this were cleared because fresh material was added; null when none was. */
  readonly clearedAtMs: number | null;
}

/**
 * Judges a pile's record against one published time-temperature rule. The coolest required zone decides, time without
 * data earns nothing, and fresh material clears what was earned. Throws `RangeError` on samples out of time order.
 */
export function evaluateSanitisation(
  rule: RuleSet,
  input: SanitisationInput,
  policy: SanitisationPolicy = defaultSanitisationPolicy,
): SanitisationResult {
  return evaluateAll([rule], input, policy)[0]!;
}

/** Judges one record against several rules, joining the zones only once for those that ask for the same zones. */
export function evaluateAll(
  rules: readonly RuleSet[],
  input: SanitisationInput,
  policy: SanitisationPolicy = defaultSanitisationPolicy,
): SanitisationResult[] {
  const joined = new Map<string, Watched>();
  return rules.map((rule) => {
    const zones = requiredZones(rule, input, policy);
    const key = zones.join();
    const watched = joined.get(key) ?? watch(zones, input, policy);
    joined.set(key, watched);
    return judge(rule, watched, input, policy);
  });
}

/** What was watched in the zones a rule asks for; shared by all rules that ask for the same ones. */
interface Watched extends PathEvidence {
  readonly zones: readonly Position[];
  readonly coverage: readonly ChannelCoverage[];
  readonly clearedAtMs: number | null;
}

/** Air is never a zone of the pile. A zone asked for but not watched stays required, so it earns nothing. */
function requiredZones(rule: RuleSet, input: SanitisationInput, policy: SanitisationPolicy): Position[] {
  const monitored = input.series.map((series) => series.position).filter((position) => position !== 'air');
  const wanted = policy.zones ?? (rule.zones === 'core' ? (['core'] as const) : monitored);
  return [...new Set(wanted)].sort();
}

function watch(zones: readonly Position[], input: SanitisationInput, policy: SanitisationPolicy): Watched {
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

function judge(
  rule: RuleSet,
  watched: Watched,
  input: SanitisationInput,
  policy: SanitisationPolicy,
): SanitisationResult {
  const { path, outcome: plain } = bestPath(rule, watched, input, policy);
  const guarded = evaluatePath(path, watched, { ...policy, guardCelsius: policy.probeToleranceCelsius });
  const coreOnly = watched.zones.length === 1 && watched.zones[0] === 'core';
  const withheld = coreOnly && input.method === 'static-cage';
  const moisture = moistureFlag(rule, plain, input.moisture);
  const preconditions = checkPreconditions(path, input.largestPieceMetres);
  const failed = preconditions.some((condition) => condition.state === 'failed');
  const metAtMs = failed ? null : plain.satisfiedAtMs;
  return {
    ruleId: rule.id,
    title: rule.title,
    source: rule.source,
    statusWords: ruleStatusWords[rule.status],
    outcome: metAtMs === null ? 'not-yet' : withheld ? 'core-record-only' : 'consistent',
    pathId: path.id,
    progress: failed ? 0 : plain.progress,
    satisfiedAtMs: withheld ? null : metAtMs,
    coreRecordAtMs: withheld ? metAtMs : null,
    parts: plain.parts,
    missing: [...missingWords(path, plain.parts, policy.temperatureUnit), ...failedWords(preconditions)],
    cautions: cautionsFor({
      rule,
      coreOnly,
      withheld,
      plain,
      guarded,
      moisture,
      preconditions,
      clearedAtMs: watched.clearedAtMs,
    }),
    preconditions,
    moisture,
    zonesCounted: watched.zones,
    plain: totals(plain),
    guarded: totals(guarded),
    evidence: plain.stretches.map(evidenceRow),
    coverage: watched.coverage,
    clearedAtMs: watched.clearedAtMs,
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

/** The path met first, else the one furthest on; paths ruled out by a written-down fact come last. */
function bestPath(
  rule: RuleSet,
  evidence: PathEvidence,
  input: SanitisationInput,
  policy: SanitisationPolicy,
) {
  const judged = rule.paths.map((path) => {
    const outcome = evaluatePath(path, evidence, { ...policy, guardCelsius: 0 });
    const failed = checkPreconditions(path, input.largestPieceMetres).some((one) => one.state === 'failed');
    return { path, outcome, failed };
  });
  const rank = (one: (typeof judged)[number]) => [
    one.failed ? 1 : 0,
    one.outcome.satisfiedAtMs ?? Number.MAX_VALUE,
    -one.outcome.progress,
  ];
  return judged.sort((one, other) => compare(rank(one), rank(other)))[0]!;
}

function compare(one: readonly number[], other: readonly number[]): number {
  const index = one.findIndex((value, at) => value !== other[at]);
  return index < 0 ? 0 : one[index]! - other[index]!;
}

function evaluatePath(
  path: RulePath,
  evidence: PathEvidence,
  policy: SanitisationPolicy & { readonly guardCelsius: number },
): PathOutcome {
  return path.kind === 'hold'
    ? evaluateHold(path, evidence, policy)
    : evaluateHoldBeforeTurns(path, evidence, policy);
}

function failedWords(preconditions: readonly PreconditionCheck[]): string[] {
  return preconditions.filter((one) => one.state === 'failed').map((one) => `This rule needs ${one.words}.`);
}

function totals({ totalHours, bestPeriodHours, satisfiedAtMs }: PathOutcome): Totals {
  return { totalHours, bestPeriodHours, satisfiedAtMs };
}
