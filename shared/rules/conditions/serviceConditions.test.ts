import { describe, expect, test } from 'vitest';
import type { ConditionId } from '../../alarms/alarm.ts';
import { advance } from '../assess.ts';
import { createYardSubject, isYardSilent } from '../probeSubject.ts';
import { nothingKnown, type ServiceFacts } from '../serviceFacts.ts';
import { minuteMs, startMs } from '../testing/testPile.ts';

/** Judges a yard whose program stands like `facts` at each minute. */
function judge(facts: (minutes: number) => Partial<ServiceFacts>, minutes: number) {
  let now = 0;
  const subject = createYardSubject(
    'gannet-row',
    'Gannet Row',
    () => ({ placed: 4, silent: 0 }),
    () => ({ ...nothingKnown, ...facts(now) }),
  );
  subject.lastInstantMs = startMs;
  const transitions = [];
  for (; now <= minutes; now += 1)
    transitions.push(...advance(subject, [], startMs + now * minuteMs).transitions);
  return { subject, steps: transitions.map(({ alarmId, event }) => [alarmId.split('.').at(-1), event]) };
}

const trouble: readonly (readonly [ConditionId, Partial<ServiceFacts>])[] = [
  ['service-broker-away', { brokerConnected: false }],
  ['service-database-away', { databaseReachable: false }],
  ['service-disk-low', { diskFreeFraction: 0.05, diskFreeBytes: 2e9 }],
  ['service-disk-low', { ...{ diskFreeFraction: 0.5, diskFreeBytes: 100e9 }, localSpaceUsedFraction: 0.85 }],
  ['service-messages-not-leaving', { messageWaitedMs: 20 * minuteMs }],
  ['service-clock-step', { clockStep: { atMs: startMs, stepMs: -3_600_000 } }],
];
const fine: Partial<ServiceFacts> = {
  ...{ brokerConnected: true, databaseReachable: true, messageWaitedMs: 0, clockStep: null },
  ...{ diskFreeFraction: 0.5, diskFreeBytes: 100e9, localSpaceUsedFraction: 0.1 },
};

test.each(trouble)(
  '%s is raised, stays while nothing is known, and clears when all is well',
  (condition, facts) => {
    const { steps } = judge((at) => (at < 60 ? facts : at < 120 ? unknownOf(facts) : fine), 180);
    expect(steps).toEqual([
      [condition, 'became-active'],
      [condition, 'returned-to-normal'],
    ]);
  },
);

/** What is not known any more; a clock step is remembered by who saw it. */
function unknownOf(facts: Partial<ServiceFacts>): Partial<ServiceFacts> {
  return facts.clockStep === undefined ? {} : facts;
}

describe('nothing is raised', () => {
  test.each([
    ['where all is well', fine],
    ['where nothing is known', {}],
    ['by a small free share of a very large disk', { diskFreeFraction: 0.05, diskFreeBytes: 200e9 }],
    ['by a message that has just been written', { messageWaitedMs: 5000 }],
    ['by an ordinary correction of the clock', { clockStep: { atMs: startMs, stepMs: 20_000 } }],
  ])('%s', (_what, facts) => {
    expect(judge(() => facts, 120).steps).toEqual([]);
  });
});

test("the program's own troubles do not make the yard's probes look silent", () => {
  const { subject } = judge(() => ({ databaseReachable: false }), 60);
  expect(isYardSilent(subject, startMs + 61 * minuteMs)).toBe(false);
});
