import type { ConditionId, Priority } from '../alarms/alarm.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import type { Overrides } from './parameters.ts';
import type { PileLimits } from './pileSubject.ts';
import { replaySteps } from './replay.ts';
import { countReadings, type Past } from './replayPast.ts';
import {
  type Counted,
  compareReports,
  type ReplayComparison,
  type ReplayReport,
  reportOf,
} from './replayReport.ts';
import { detectTroubles, type Trouble } from './replayTroubles.ts';
import { type Suggestion, suggestSteps } from './suggestLimits.ts';

/** All that is asked of one replay; plain data, so that it can be handed to a worker. */
export interface ReplayJob {
  readonly past: Past;
  /** Limits in force. */
  readonly current: PileLimits;
  /** Limits on trial; null asks only how the current ones did. */
  readonly candidate: Readonly<Record<string, Overrides>> | null;
  /** Alarms and texts are counted from here; what is before only sets the stage. */
  readonly countFromMs: number;
  /** Least pressing priority that is texted. */
  readonly textsFrom: Priority;
  /** Troubles people marked; null: those that plain rules find. */
  readonly troubles: readonly Trouble[] | null;
  /** Conditions to search better limits for. */
  readonly suggest: readonly ConditionId[];
  readonly temperatureUnit: TemperatureUnit;
}

export interface ReplayOutcome {
  readonly readings: number;
  readonly troubles: readonly Trouble[];
  readonly current: ReplayReport;
  readonly defaults: ReplayReport;
  readonly candidate: ReplayReport | null;
  readonly againstCurrent: ReplayComparison | null;
  readonly againstDefaults: ReplayComparison | null;
  readonly suggestions: readonly Suggestion[];
}

/**
 * Does a whole job in pieces, yielding the share done, 0..1: replays the limits in force, the method's defaults and the
 * limits on trial, compares them, and searches better ones. The same in a browser's worker and a server's thread.
 * Throws LimitError when a limit on trial is not allowed.
 */
export function* replayJobSteps(job: ReplayJob): Generator<number, ReplayOutcome> {
  const { past, current, candidate, suggest } = job;
  const parts = 2 + (candidate === null ? 0 : 1) + 3 * suggest.length;
  const troubles = job.troubles ?? detectTroubles(past);
  const counted: Counted = { fromMs: job.countFromMs, toMs: past.toMs, textsFrom: job.textsFrom };
  let done = 0;
  function* report(limits: PileLimits): Generator<number, ReplayReport> {
    const result = yield* part(replaySteps(past, limits), done / parts, 1 / parts);
    done += 1;
    return reportOf(result, troubles, counted);
  }
  // On trial first: a limit that is not allowed is said at once.
  const tried =
    candidate === null ? null : yield* report({ version: current.version + 1, overrides: candidate });
  const now = yield* report(current);
  const isUnchanged = Object.keys(current.overrides).length === 0;
  const defaults = isUnchanged ? now : yield* report({ version: 0, overrides: {} });
  if (isUnchanged) done += 1;
  const suggestions: Suggestion[] = [];
  for (const condition of suggest) {
    const options = { temperatureUnit: job.temperatureUnit, textsFrom: job.textsFrom };
    const marked = job.troubles === null ? {} : { troubles: job.troubles };
    const search = suggestSteps(past, current, condition, { ...options, ...marked });
    suggestions.push(yield* part(search, done / parts, 3 / parts));
    done += 3;
  }
  return {
    readings: countReadings(past),
    troubles,
    current: now,
    defaults,
    candidate: tried,
    againstCurrent: tried === null ? null : compareReports(tried, now),
    againstDefaults: tried === null ? null : compareReports(tried, defaults),
    suggestions,
  };
}

function* part<T>(steps: Generator<number, T>, from: number, share: number): Generator<number, T> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    yield Math.min(1, from + share * step.value);
  }
}
