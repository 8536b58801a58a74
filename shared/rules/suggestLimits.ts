import { type ConditionId, type Priority, priorities } from '../alarms/alarm.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { pileConditions } from './allConditions.ts';
import type { CommonParameters, Condition, Rule } from './condition.ts';
import { type Overrides, ruleFor } from './parameters.ts';
import type { PileLimits } from './pileSubject.ts';
import type { PileView } from './pileView.ts';
import { ReplayCancelled, type ReplayControl, type ReplayResult, replaySteps } from './replay.ts';
import { type Past, spanOf } from './replayPast.ts';
import { safeBounds } from './suggestBounds.ts';
import { candidatesOf, knobsOf } from './suggestGrid.ts';
import { mostLost, type RankOptions, rank, reference, usualMostLostMinutes } from './suggestRank.ts';
import { tryParameters } from './suggestTrial.ts';
import { suggestionWords } from './suggestWords.ts';

export interface SuggestOptions extends RankOptions {
  readonly temperatureUnit: TemperatureUnit;
  /** Least pressing priority that is texted. */
  readonly textsFrom: Priority;
}

/** What could be better about one condition's limits, in words and as changes ready to be saved. */
export type Suggestion =
  | {
      readonly kind: 'none';
      readonly condition: ConditionId;
      readonly why: 'too-short' | 'never-suggested' | 'nothing-to-gain' | 'not-judged';
      readonly says: string;
    }
  | {
      readonly kind: 'change';
      readonly condition: ConditionId;
      /** Parameters that differ from the ones in force. */
      readonly change: Readonly<Record<string, number>>;
      /** All of the condition's overrides with the change in them. */
      readonly overrides: Overrides;
      readonly before: number;
      readonly after: number;
      readonly counts: 'texts' | 'notices';
      readonly warningLostMinutes: number;
      readonly says: string;
    };

/** With less than a week nobody can tell a habit of the pile from chance (our choice, no source). */
export const shortestPastDays = 7;

/** Suggests limits for one condition of a pile from its past. Throws LimitError and ReplayCancelled as a replay does. */
export function suggestLimits(
  past: Past,
  limits: PileLimits,
  condition: ConditionId,
  options: SuggestOptions,
  control: ReplayControl = {},
): Suggestion {
  const steps = suggestSteps(past, limits, condition, options);
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    control.onProgress?.(step.value);
    if (control.isCancelled?.() === true) throw new ReplayCancelled('the search was cancelled');
  }
}

/** The same in pieces, yielding the share done, 0..1. */
export function* suggestSteps(
  past: Past,
  limits: PileLimits,
  id: ConditionId,
  options: SuggestOptions,
): Generator<number, Suggestion> {
  const refused = refusal(past, limits, id);
  if (refused !== null) return refused;
  const condition = pileConditions.find((one) => one.id === id)!;
  const { parameters } = ruleOf(condition, past, limits);
  const bounds = safeBounds(id, condition.defaults(past.facts.pile.method))!;
  const now = yield* scaled(replaySteps(past, limits), 0, 0.25);
  const before = countOf(now, id, options.textsFrom);
  if (before.count < 2) return nothingToGain(id, before.count, daysOf(past), before.counts);
  const sets = [reference(parameters), ...candidatesOf(parameters, bounds)];
  const trials = yield* scaled(tryParameters(past, condition, sets, now.alarms), 0.25, 0.75);
  const ranked = rank(id, trials, options);
  // The search is near enough to choose by; only a full replay is told to people, and it may disagree.
  for (const [place, best] of ranked.slice(0, 3).entries()) {
    const overrides = overridesFor(condition, past, limits, best.trial.parameters);
    const changed = { ...limits, overrides: { ...limits.overrides, [id]: overrides } };
    const then = yield* scaled(replaySteps(past, changed), 0.75 + place * 0.08, 0.83 + place * 0.08);
    const after = countOf(then, id, options.textsFrom);
    if (after.count >= before.count) continue;
    const lost = mostLost(best.troubles, now, then, id);
    if (lost === null || lost > (options.mostWarningLostMinutes ?? usualMostLostMinutes)) continue;
    const change = changesBetween(parameters, best.trial.parameters);
    const figures = { before: before.count, after: after.count, counts: before.counts };
    const says = suggestionWords(
      { ...figures, changed: change, days: daysOf(past), lostMinutes: lost },
      options.temperatureUnit,
    );
    return { kind: 'change', condition: id, change, overrides, ...figures, warningLostMinutes: lost, says };
  }
  return nothingToGain(id, before.count, daysOf(past), before.counts);
}

function refusal(past: Past, limits: PileLimits, id: ConditionId): Suggestion | null {
  const none = (why: 'too-short' | 'never-suggested' | 'not-judged', says: string): Suggestion => ({
    ...{ kind: 'none', condition: id, why, says },
  });
  const condition = pileConditions.find((one) => one.id === id);
  if (condition === undefined || !ruleOf(condition, past, limits).parameters.enabled)
    return none('not-judged', 'This is not judged for this pile, so there is nothing to try.');
  if (safeBounds(id, condition.defaults(past.facts.pile.method)) === null)
    return none(
      'never-suggested',
      'Limits of fire danger are never suggested: set them with your fire service.',
    );
  const days = daysOf(past);
  if (days >= shortestPastDays) return null;
  const had = days < 1 ? 'less than a day' : `${Math.floor(days)} days`;
  return none(
    'too-short',
    `Only ${had} of readings: at least ${shortestPastDays} days are needed to tell a habit from chance.`,
  );
}

function nothingToGain(
  condition: ConditionId,
  count: number,
  days: number,
  counts: 'texts' | 'notices',
): Suggestion {
  const had = count === 0 ? `no ${counts}` : count === 1 ? `1 ${counts.slice(0, -1)}` : `${count} ${counts}`;
  const says =
    count < 2
      ? `Nothing to gain: these limits gave ${had} in ${Math.round(days)} days.`
      : `Nothing better found: these limits gave ${had} in ${Math.round(days)} days, and calmer ones would have lost warning.`;
  return { kind: 'none', condition, why: 'nothing-to-gain', says };
}

function daysOf(past: Past): number {
  const span = spanOf(past);
  return span === null ? 0 : (span.toMs - span.fromMs) / 86_400_000;
}

function ruleOf(condition: Condition<PileView>, past: Past, limits: PileLimits): Rule<PileView> {
  return ruleFor(condition, past.facts.pile.method, limits.overrides[condition.id] ?? {});
}

/** Texts of a condition, or alarms where it is too little pressing to be texted. */
function countOf(
  result: ReplayResult,
  id: ConditionId,
  textsFrom: Priority,
): { readonly count: number; readonly counts: 'texts' | 'notices' } {
  const own = result.texts.filter(({ condition }) => condition === id);
  const texted = own.filter(({ priority }) => priorities.indexOf(priority) <= priorities.indexOf(textsFrom));
  return texted.length > 0 || own.length === 0
    ? { count: texted.length, counts: 'texts' }
    : { count: own.length, counts: 'notices' };
}

function changesBetween(from: CommonParameters, to: CommonParameters): Record<string, number> {
  const before = from as unknown as Record<string, number>;
  const keys = [knobsOf(to).limit, knobsOf(to).deadband, 'onDelayMinutes', 'offDelayMinutes'];
  return Object.fromEntries(
    keys.flatMap((key) => {
      const value = key === null ? undefined : (to as unknown as Record<string, number>)[key];
      return key === null || value === undefined || value === before[key] ? [] : [[key, value]];
    }),
  );
}

function overridesFor(
  condition: Condition<PileView>,
  past: Past,
  limits: PileLimits,
  parameters: CommonParameters,
): Overrides {
  const held = limits.overrides[condition.id] ?? {};
  return { ...held, ...changesBetween(ruleOf(condition, past, limits).parameters, parameters) };
}

/** Runs a part of the work and tells its progress as a part of the whole. */
function* scaled<T>(steps: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    yield from + (to - from) * step.value;
  }
}
