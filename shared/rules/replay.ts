import type { Alarm, AlarmTransition, ConditionId, Priority } from '../alarms/alarm.ts';
import { advance } from './assess.ts';
import type { Rule } from './condition.ts';
import { createPileSubject, type PileLimits, type PileSample, type PileSubject } from './pileSubject.ts';
import type { PileView } from './pileView.ts';
import { addPastHour, type PileFacts } from './pileWindow.ts';
import { alarmsOf, type ReplayAlarm } from './replayAlarms.ts';
import { mergePast } from './replayMerge.ts';
import { countReadings, type Past } from './replayPast.ts';
import { type JudgedStep, type ReplayText, textsOf } from './replayTexts.ts';

export interface Replay {
  readonly alarms: readonly Alarm[];
  readonly transitions: readonly AlarmTransition[];
}

/**
 * Judges a stretch of a pile's past by the same functions that judge the present. `samples` in time order.
 * Throws LimitError when a limit is not allowed.
 */
export function replay(
  facts: PileFacts,
  limits: PileLimits,
  samples: readonly PileSample[],
  toMs: number,
): Replay {
  const { subject } = createPileSubject(facts, limits);
  const { transitions } = advance(subject, samples, toMs);
  return { alarms: [...subject.alarms.values()], transitions };
}

/** What a past would have been like under some limits, had nobody acknowledged or shelved anything. */
export interface ReplayResult {
  readonly limitsVersion: number;
  readonly toMs: number;
  readonly transitions: readonly AlarmTransition[];
  readonly alarms: readonly ReplayAlarm[];
  readonly texts: readonly ReplayText[];
}

/** Asked between batches; stops the replay by throwing `ReplayCancelled` out of it. */
export interface ReplayControl {
  readonly isCancelled?: () => boolean;
  /** 0..1 */
  readonly onProgress?: (share: number) => void;
}

export class ReplayCancelled extends Error {
  override readonly name = 'ReplayCancelled';
}

/**
 * Replays columns of any length. It hands them to the very function that judges the present, a batch at a time, so it
 * gives exactly the live runner's alarms. Throws LimitError when a limit is not allowed, ReplayCancelled when asked to.
 */
export function replayPast(past: Past, limits: PileLimits, control: ReplayControl = {}): ReplayResult {
  const steps = replaySteps(past, limits);
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    control.onProgress?.(step.value);
    if (control.isCancelled?.() === true) throw new ReplayCancelled('the replay was cancelled');
  }
}

/**
 * The same in pieces: yields the share done, 0..1, every few milliseconds, and returns the result. For a worker that
 * wants to hear messages in between.
 */
export function* replaySteps(past: Past, limits: PileLimits): Generator<number, ReplayResult> {
  const pile = createPileSubject(past.facts, limits);
  const priorities = notePriorities(pile);
  for (const hour of past.hoursBefore ?? []) addPastHour(pile.window, hour);
  const merged = mergePast(past);
  const total = countReadings(past);
  const transitions: AlarmTransition[] = [];
  for (let batch = merged.next(); batch.length > 0; batch = merged.next()) {
    const lastMs = batch.at(-1)!.timeMs;
    transitions.push(...advance(pile.subject, batch, lastMs).transitions);
    yield merged.done / total;
  }
  transitions.push(...advance(pile.subject, [], past.toMs).transitions);
  const steps = judgedSteps(pile, transitions, priorities);
  const quiet = new Map(pile.subject.rules.map((rule) => [rule.condition.id, quietMinutesOf(rule)]));
  return {
    limitsVersion: limits.version,
    toMs: past.toMs,
    transitions,
    alarms: alarmsOf(steps),
    texts: textsOf(steps, (condition) => quiet.get(condition) ?? 0, past.toMs),
  };
}

const quietMinutesOf = (rule: Rule<PileView>): number => rule.parameters.minimumMinutesBetweenTexts;

/** Priorities by condition and instant: the life cycle asks for one at every step but stores it only in the alarm. */
type Priorities = Map<string, Priority>;

const keyOf = (condition: ConditionId, atMs: number): string => `${condition} ${atMs}`;

function notePriorities({ subject }: PileSubject): Priorities {
  const noted: Priorities = new Map();
  subject.rules = subject.rules.map(({ condition, parameters }) => {
    const priority: typeof condition.priority = (view, given) => {
      const answer = condition.priority(view, given);
      noted.set(keyOf(condition.id, view.nowMs), answer);
      return answer;
    };
    return { condition: { ...condition, priority }, parameters };
  });
  return noted;
}

function judgedSteps(
  { subject }: PileSubject,
  transitions: readonly AlarmTransition[],
  priorities: Priorities,
): JudgedStep[] {
  const alarms = new Map([...subject.alarms.values()].map((alarm) => [alarm.id, alarm]));
  return transitions.map((transition) => {
    const alarm = alarms.get(transition.alarmId)!;
    const priority = priorities.get(keyOf(alarm.condition, transition.atMs)) ?? alarm.priority;
    return { condition: alarm.condition, transition, priority };
  });
}
