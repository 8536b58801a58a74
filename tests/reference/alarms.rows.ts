import { expect } from 'vitest';
import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';
import { isBeyondHigh } from '../../shared/alarms/deadband.ts';
import { noFlood, stepFlood } from '../../shared/alarms/flood.ts';
import { transition } from '../../shared/alarms/lifecycle.ts';
import { newAlarm } from '../../shared/alarms/newAlarm.ts';
import { restingTimer, stepTiming } from '../../shared/alarms/timing.ts';
import type { CheckRow } from './checkRow.ts';

const options = { latching: false, returnNeedsAcknowledging: true, sameOccurrenceMinutes: 60 };
const secondary = 'confirmed by lookup (secondary)';

function alarm(change: Partial<Alarm>): Alarm {
  return { ...newAlarm('yard', { kind: 'pile', id: 'p' }, 'too-hot-ceiling'), ...change };
}

function statesAfter(start: Alarm, events: readonly AlarmEvent[]): string[] {
  let now = start;
  return events.map((event) => {
    const result = transition(now, event, { options });
    if ('refused' in result) return 'refused';
    now = result.alarm;
    return now.state;
  });
}

/** C-50: high limit 70, deadband 2, on-delay 10 min, off-delay 0, a sample every 5 minutes. */
function highLimitRun(): string[] {
  let timing = restingTimer;
  const changes: string[] = [];
  [69, 71, 71, 69.5, 71, 71, 71, 69, 68.5, 67.9].forEach((celsius, index) => {
    const beyond = isBeyondHigh(celsius, 70, 2, timing.active);
    const instant = { atMs: index * 300_000, truth: beyond ? 'true' : 'false' } as const;
    const step = stepTiming(timing, instant, { onDelayMinutes: 10, offDelayMinutes: 0 });
    timing = step.timing;
    if (step.change) changes.push(`12:${String(index * 5).padStart(2, '0')} ${step.change}`);
  });
  return changes;
}

export const rows: CheckRow[] = [
  {
    id: 'C-50',
    source: 'made in the pack from A-2',
    status: 'ours',
    check: () => expect(highLimitRun()).toEqual(['12:30 became-active', '12:45 returned']),
  },
  {
    id: 'C-51',
    source: 'ISA-18.2',
    status: secondary,
    check: () =>
      expect(
        statesAfter(alarm({ state: 'unacknowledged' }), [
          { kind: 'returned-to-normal', atMs: 1 },
          { kind: 'acknowledge', atMs: 2, by: 'wren' },
        ]),
      ).toEqual(['returned-unacknowledged', 'normal']),
  },
  {
    id: 'C-52',
    source: 'ISA-18.2',
    status: secondary,
    check: () =>
      expect(
        statesAfter(alarm({ state: 'acknowledged' }), [{ kind: 'returned-to-normal', atMs: 1 }]),
      ).toEqual(['normal']),
  },
  {
    id: 'C-53',
    source: 'ISA-18.2',
    status: secondary,
    check: () => {
      const shelved = alarm({ state: 'shelved', timing: { ...restingTimer, active: true } });
      expect(statesAfter(shelved, [{ kind: 'unshelve', atMs: 1, by: null }])).toEqual(['unacknowledged']);
    },
  },
  {
    id: 'C-54',
    source: 'ISA-18.2 §16.4.4',
    status: secondary,
    check: () => {
      const steps: ReturnType<typeof stepFlood>[] = [];
      for (const count of [10, 11, 5, 4]) steps.push(stepFlood(steps.at(-1) ?? noFlood, count, steps.length));
      expect(steps.map((step) => step.flooding)).toEqual([false, true, true, false]);
    },
  },
];
