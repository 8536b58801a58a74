import { cautionsFor, moistureFlag } from './cautions.ts';
import { evidenceRow } from './coverage.ts';
import { evaluateHold, type PathEvidence } from './evaluateHold.ts';
import { evaluateHoldBeforeTurns } from './evaluateHoldBeforeTurns.ts';
import type { SanitisationInput } from './input.ts';
import type { PathOutcome } from './outcome.ts';
import type { SanitisationPolicy } from './policy.ts';
import { checkPreconditions, type PreconditionCheck } from './preconditions.ts';
import type { SanitisationResult, Totals } from './result.ts';
import { type RulePath, type RuleSet, ruleStatusWords } from './ruleSet.ts';
import type { Watched } from './watch.ts';
import { missingWords } from './words.ts';

/** Judges what was watched against one rule: the plain reading decides, the guarded one is shown beside it. */
export function judge(
  rule: RuleSet,
  watched: Watched,
  input: SanitisationInput,
  policy: SanitisationPolicy,
): SanitisationResult {
  const best = bestPath(rule, watched, input, { ...policy, guardCelsius: 0 });
  const guarded = bestPath(rule, watched, input, { ...policy, guardCelsius: policy.probeToleranceCelsius });
  const { clearedAtMs } = watched;
  const coreOnly = watched.zones.length === 1 && watched.zones[0] === 'core';
  const withheld = coreOnly && input.method === 'static-cage';
  const moisture = moistureFlag(rule, best.outcome, input.moisture);
  const guardedMet = guarded.outcome.satisfiedAtMs !== null;
  const facts = { rule, coreOnly, withheld, plain: best.outcome, guardedMet, moisture };
  return {
    ruleId: rule.id,
    title: rule.title,
    source: rule.source,
    statusWords: ruleStatusWords[rule.status],
    ...standing(best, withheld),
    pathId: best.path.id,
    parts: best.outcome.parts,
    missing: [
      ...missingWords(best.path, best.outcome.parts, policy.temperatureUnit),
      ...failedWords(best.preconditions),
    ],
    cautions: cautionsFor({ ...facts, preconditions: best.preconditions, clearedAtMs }),
    preconditions: best.preconditions,
    moisture,
    zonesCounted: watched.zones,
    plain: totals(best),
    guarded: totals(guarded),
    evidence: best.outcome.stretches.map(evidenceRow),
    coverage: watched.coverage,
    clearedAtMs,
  };
}

/** One path with how far it has come. `failed`: a fact written down rules it out. */
interface JudgedPath {
  readonly path: RulePath;
  readonly outcome: PathOutcome;
  readonly preconditions: readonly PreconditionCheck[];
  readonly failed: boolean;
}

type Standing = Pick<SanitisationResult, 'outcome' | 'progress' | 'satisfiedAtMs' | 'coreRecordAtMs'>;

/** A core record alone is withheld from counting as the pile's record where nobody turns the material. */
function standing({ outcome, failed }: JudgedPath, withheld: boolean): Standing {
  const metAtMs = failed ? null : outcome.satisfiedAtMs;
  if (metAtMs === null) {
    const progress = failed ? 0 : outcome.progress;
    return { outcome: 'not-yet', progress, satisfiedAtMs: null, coreRecordAtMs: null };
  }
  return withheld
    ? { outcome: 'core-record-only', progress: 0.99, satisfiedAtMs: null, coreRecordAtMs: metAtMs }
    : { outcome: 'consistent', progress: 1, satisfiedAtMs: metAtMs, coreRecordAtMs: null };
}

type GuardedPolicy = SanitisationPolicy & { readonly guardCelsius: number };

/** The path met first, else the one furthest on; paths ruled out by a written-down fact come last. */
function bestPath(
  rule: RuleSet,
  evidence: PathEvidence,
  input: SanitisationInput,
  policy: GuardedPolicy,
): JudgedPath {
  const judged = rule.paths.map((path): JudgedPath => {
    const preconditions = checkPreconditions(path, input.largestPieceMetres);
    const failed = preconditions.some((one) => one.state === 'failed');
    return { path, outcome: evaluatePath(path, evidence, policy), preconditions, failed };
  });
  return judged.sort((one, other) => compare(rank(one), rank(other)))[0]!;
}

function rank({ failed, outcome }: JudgedPath): number[] {
  return [failed ? 1 : 0, outcome.satisfiedAtMs ?? Number.MAX_VALUE, -outcome.progress];
}

function compare(one: readonly number[], other: readonly number[]): number {
  const index = one.findIndex((value, at) => value !== other[at]);
  return index < 0 ? 0 : one[index]! - other[index]!;
}

function evaluatePath(path: RulePath, evidence: PathEvidence, policy: GuardedPolicy): PathOutcome {
  return path.kind === 'hold'
    ? evaluateHold(path, evidence, policy)
    : evaluateHoldBeforeTurns(path, evidence, policy);
}

function failedWords(preconditions: readonly PreconditionCheck[]): string[] {
  return preconditions.filter((one) => one.state === 'failed').map((one) => `This rule needs ${one.words}.`);
}

function totals({ path, outcome }: JudgedPath): Totals {
  const { totalHours, bestPeriodHours, satisfiedAtMs } = outcome;
  return { pathId: path.id, totalHours, bestPeriodHours, satisfiedAtMs };
}
