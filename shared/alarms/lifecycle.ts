import type {
  Alarm,
  AlarmEvent,
  AlarmState,
  AlarmTiming,
  AlarmTransition,
  Evidence,
  Priority,
} from './alarm.ts';
import { lifecycleTable, type Outcome } from './lifecycleTable.ts';

/** Choices a condition makes about its alarm's life. */
export interface LifecycleOptions {
  /** Stays until a person has looked and reset it, even when the cause has gone. */
  readonly latching: boolean;
  /** Whether an alarm that cleared before anyone acknowledged it still asks for that. */
  readonly returnNeedsAcknowledging: boolean;
  /** Coming back within this time of returning, still unacknowledged, is the same occurrence: no second text. */
  readonly sameOccurrenceMinutes: number;
}

/** What is true at the moment of the event. Left out = as the alarm has it. */
export interface LifecycleContext {
  readonly options: LifecycleOptions;
  readonly timing?: AlarmTiming;
  readonly evidence?: readonly Evidence[];
  readonly priority?: Priority;
  readonly limitsVersion?: number;
}

export type LifecycleResult =
  | { readonly alarm: Alarm; readonly transition: AlarmTransition | null }
  | { readonly refused: string };

/** Visible states in which the alarm asks for, or has had, somebody's attention. */
export const standingStates: readonly AlarmState[] = [
  'unacknowledged',
  'acknowledged',
  'returned-unacknowledged',
  'latched-unacknowledged',
  'latched-acknowledged',
];

/**
 * Applies one event by the table. A result without a transition means nothing worth storing happened. Refusals are
 * for people's actions only and carry the reason in plain words.
 */
export function transition(alarm: Alarm, event: AlarmEvent, context: LifecycleContext): LifecycleResult {
  const outcome = lifecycleTable[alarm.state][event.kind];
  if (outcome === 'refuse') return { refused: refusalOf(alarm.state, event) };
  const seen = { ...alarm, timing: context.timing ?? alarm.timing };
  if (outcome === 'stay') return { alarm: seen, transition: null };
  const to = resolve(outcome, seen, context.options);
  const next = enter(seen, to, event, context);
  return { alarm: next, transition: record(alarm, next, event) };
}

function resolve(
  outcome: Exclude<Outcome, 'stay' | 'refuse'>,
  alarm: Alarm,
  options: LifecycleOptions,
): AlarmState {
  const returned = options.returnNeedsAcknowledging ? 'returned-unacknowledged' : 'normal';
  switch (outcome) {
    case 'settle':
      return options.latching ? 'latched-unacknowledged' : returned;
    case 'settle-acknowledged':
      return options.latching ? 'latched-acknowledged' : 'normal';
    case 'release':
      return returned;
    case 'reappear':
      if (alarm.timing.active) return 'unacknowledged';
      // A latch outlives hiding: only a person's reset ends it, and that sets activeSinceMs to null.
      return options.latching && alarm.activeSinceMs !== null ? 'latched-unacknowledged' : 'normal';
    case 'underneath':
      return alarm.state;
    default:
      return outcome;
  }
}

function enter(alarm: Alarm, to: AlarmState, event: AlarmEvent, context: LifecycleContext): Alarm {
  const raised = to === 'unacknowledged';
  return {
    ...alarm,
    state: to,
    priority: context.priority ?? alarm.priority,
    evidence: context.evidence ?? alarm.evidence,
    limitsVersion: context.limitsVersion ?? alarm.limitsVersion,
    occurrence: raised
      ? alarm.occurrence + (sameOccurrence(alarm, event, context.options) ? 0 : 1)
      : alarm.occurrence,
    ...times(alarm, to, event),
    ...hidingOf(event),
    version: alarm.version + 1,
  };
}

function sameOccurrence(alarm: Alarm, event: AlarmEvent, options: LifecycleOptions): boolean {
  if (alarm.state !== 'returned-unacknowledged' || alarm.returnedMs === null) return false;
  return event.atMs - alarm.returnedMs < options.sameOccurrenceMinutes * 60_000;
}

type Times = Pick<Alarm, 'activeSinceMs' | 'returnedMs' | 'acknowledgedMs' | 'acknowledgedBy'>;

function times(alarm: Alarm, to: AlarmState, event: AlarmEvent): Partial<Times> {
  if (event.kind === 'acknowledge')
    return {
      acknowledgedMs: event.atMs,
      acknowledgedBy: event.by,
      ...(to === 'normal' && { activeSinceMs: null }),
    };
  if (to === 'unacknowledged') return raisedTimes(alarm, event);
  if (event.kind === 'became-active') return { activeSinceMs: event.atMs, returnedMs: null };
  const returned = event.kind === 'returned-to-normal' ? { returnedMs: event.atMs } : {};
  return to === 'normal' ? { activeSinceMs: null, ...returned } : returned;
}

function raisedTimes(alarm: Alarm, event: AlarmEvent): Times {
  const before = event.kind === 'became-active' ? null : alarm.activeSinceMs;
  return {
    activeSinceMs: before ?? event.atMs,
    returnedMs: null,
    acknowledgedMs: null,
    acknowledgedBy: null,
  };
}

function hidingOf(event: AlarmEvent): Partial<Pick<Alarm, 'shelvedUntilMs' | 'hiddenReason'>> {
  switch (event.kind) {
    case 'shelve':
      return { shelvedUntilMs: event.untilMs, hiddenReason: event.reason };
    case 'suppress':
    case 'take-out-of-service':
      return { shelvedUntilMs: null, hiddenReason: event.reason };
    case 'unshelve':
    case 'unsuppress':
    case 'return-to-service':
      return { shelvedUntilMs: null, hiddenReason: null };
    default:
      return {};
  }
}

function record(before: Alarm, after: Alarm, event: AlarmEvent): AlarmTransition {
  return {
    alarmId: after.id,
    occurrence: after.occurrence,
    atMs: event.atMs,
    event: event.kind,
    from: before.state,
    to: after.state,
    by: 'by' in event ? event.by : null,
    note: 'reason' in event ? event.reason : null,
    limitsVersion: after.limitsVersion,
    evidence: after.evidence,
  };
}

const hiddenWords: Partial<Record<AlarmState, string>> = {
  shelved: 'this alarm is shelved: unshelve it first',
  suppressed: 'this alarm is hidden by design just now: it returns by itself',
  'out-of-service': 'this alarm is out of service: return it to service first',
};

function refusalOf(state: AlarmState, event: AlarmEvent): string {
  switch (event.kind) {
    case 'acknowledge':
      return hiddenWords[state] ?? 'there is nothing to acknowledge: the alarm is normal';
    case 'reset':
      return hiddenWords[state] ?? 'only an alarm that is held after its cause has gone can be reset';
    case 'unshelve':
      return 'this alarm is not shelved';
    case 'return-to-service':
      return 'this alarm is in service already';
    default:
      return hiddenWords[state] ?? `${event.kind} is not possible while the alarm is ${state}`;
  }
}
