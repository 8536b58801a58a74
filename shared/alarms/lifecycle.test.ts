import { describe, expect, test } from 'vitest';
import { type Alarm, type AlarmEvent, type AlarmState, alarmStates } from './alarm.ts';
import { type LifecycleOptions, transition } from './lifecycle.ts';
import { type AlarmEventKind, lifecycleTable } from './lifecycleTable.ts';
import { newAlarm } from './newAlarm.ts';
import { restingTimer } from './timing.ts';

const options: LifecycleOptions = {
  latching: false,
  returnNeedsAcknowledging: true,
  sameOccurrenceMinutes: 60,
};
const latching: LifecycleOptions = { ...options, latching: true };
const at = 1_700_000_000_000;

const events: Record<AlarmEventKind, AlarmEvent> = {
  'became-active': { kind: 'became-active', atMs: at },
  'returned-to-normal': { kind: 'returned-to-normal', atMs: at },
  acknowledge: { kind: 'acknowledge', atMs: at, by: 'wren' },
  shelve: { kind: 'shelve', atMs: at, by: 'wren', untilMs: at + 3_600_000, reason: 'sensor being moved' },
  unshelve: { kind: 'unshelve', atMs: at, by: null },
  suppress: { kind: 'suppress', atMs: at, reason: 'watered an hour ago' },
  unsuppress: { kind: 'unsuppress', atMs: at },
  'take-out-of-service': { kind: 'take-out-of-service', atMs: at, by: 'wren', reason: 'rebuilding the bay' },
  'return-to-service': { kind: 'return-to-service', atMs: at, by: 'wren' },
  're-alarm': { kind: 're-alarm', atMs: at },
  reset: { kind: 'reset', atMs: at, by: 'wren' },
};
const kinds = Object.keys(events) as AlarmEventKind[];

function alarmIn(state: AlarmState, active = false): Alarm {
  const base = newAlarm('yard', { kind: 'pile', id: 'p1' }, 'too-hot-ceiling');
  return { ...base, state, occurrence: 3, activeSinceMs: at - 1000, timing: { ...restingTimer, active } };
}

function after(state: AlarmState, kind: AlarmEventKind, chosen = options, active = false): string {
  const result = transition(alarmIn(state, active), events[kind], { options: chosen });
  return 'refused' in result ? 'refused' : result.alarm.state;
}

describe('the table', () => {
  test.each(alarmStates.flatMap((state) => kinds.map((kind) => [state, kind] as const)))(
    '%s has an answer to %s',
    (state, kind) => {
      expect(lifecycleTable[state][kind]).toBeTypeOf('string');
      const result = transition(alarmIn(state), events[kind], { options });
      if ('refused' in result) expect(result.refused.length).toBeGreaterThan(10);
      else if (result.transition) {
        expect(result.transition).toMatchObject({ from: state, to: result.alarm.state, event: kind });
        expect(result.alarm.version).toBe(1);
      } else expect(result.alarm).toEqual(alarmIn(state));
    },
  );

  test('has no states and no events besides the known ones', () => {
    expect(Object.keys(lifecycleTable).sort()).toEqual([...alarmStates].sort());
    for (const state of alarmStates)
      expect(Object.keys(lifecycleTable[state]).sort()).toEqual([...kinds].sort());
  });
});

/** The rows of the published table, letter by letter. */
test.each<[AlarmState, AlarmEventKind, string, LifecycleOptions, boolean]>([
  ['normal', 'became-active', 'unacknowledged', options, true],
  ['unacknowledged', 'acknowledge', 'acknowledged', options, true],
  ['unacknowledged', 'returned-to-normal', 'returned-unacknowledged', options, false],
  ['unacknowledged', 'returned-to-normal', 'latched-unacknowledged', latching, false],
  ['unacknowledged', 'returned-to-normal', 'normal', { ...options, returnNeedsAcknowledging: false }, false],
  ['acknowledged', 'returned-to-normal', 'normal', options, false],
  ['acknowledged', 'returned-to-normal', 'latched-acknowledged', latching, false],
  ['acknowledged', 're-alarm', 'unacknowledged', options, true],
  ['returned-unacknowledged', 'acknowledge', 'normal', options, false],
  ['returned-unacknowledged', 'became-active', 'unacknowledged', options, true],
  ['latched-unacknowledged', 'acknowledge', 'latched-acknowledged', latching, false],
  ['latched-unacknowledged', 'reset', 'returned-unacknowledged', latching, false],
  ['latched-acknowledged', 'reset', 'normal', latching, false],
  ['latched-acknowledged', 'became-active', 'unacknowledged', latching, true],
  ['shelved', 'unshelve', 'unacknowledged', options, true],
  ['shelved', 'unshelve', 'normal', options, false],
  ['shelved', 'unshelve', 'latched-unacknowledged', latching, false],
  ['suppressed', 'unsuppress', 'unacknowledged', options, true],
  ['out-of-service', 'return-to-service', 'normal', options, false],
])('%s, %s -> %s', (from, kind, to, chosen, active) => {
  expect(after(from, kind, chosen, active)).toBe(to);
});

test('an alarm that comes back soon, still unacknowledged, is the same occurrence; later it is a new one', () => {
  const returned = (minutesAgo: number): Alarm => ({
    ...alarmIn('returned-unacknowledged'),
    returnedMs: at - minutesAgo * 60_000,
  });
  const again = (alarm: Alarm) => transition(alarm, events['became-active'], { options });
  expect(again(returned(59))).toMatchObject({ alarm: { occurrence: 3 } });
  expect(again(returned(60))).toMatchObject({ alarm: { occurrence: 4 } });
});

test('an alarm that comes out of hiding counts as new and keeps since when it has been true', () => {
  const result = transition(alarmIn('shelved', true), events.unshelve, { options });
  expect(result).toMatchObject({
    alarm: { state: 'unacknowledged', occurrence: 4, activeSinceMs: at - 1000, acknowledgedMs: null },
  });
});

test('what happens underneath while hidden is stored', () => {
  const result = transition(alarmIn('shelved'), events['became-active'], {
    options,
    timing: { ...restingTimer, active: true },
  });
  expect(result).toMatchObject({
    alarm: { state: 'shelved', timing: { active: true } },
    transition: { to: 'shelved' },
  });
});

test('who and why are kept', () => {
  const shelved = transition(alarmIn('unacknowledged'), events.shelve, { options });
  expect(shelved).toMatchObject({
    alarm: { shelvedUntilMs: at + 3_600_000, hiddenReason: 'sensor being moved' },
    transition: { by: 'wren', note: 'sensor being moved' },
  });
});
