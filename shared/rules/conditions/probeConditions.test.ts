import { describe, expect, test } from 'vitest';
import type { ConditionId } from '../../alarms/alarm.ts';
import type { Quality, QualityReason } from '../../readings/reading.ts';
import { advance } from '../assess.ts';
import { createProbeSubject } from '../probeSubject.ts';
import type { ProbeFacts, ProbePlace, ProbeReading } from '../probeWindow.ts';
import { hourMs, minuteMs, startMs } from '../testing/testPile.ts';

const probeId = 'urn:dev:ow:28139bbb0b000001';
const core = `${probeId}_core`;
const battery = `${probeId}_battery`;

function place(channel: string, quantity: string): ProbePlace {
  return {
    ...{ channel, quantity, position: 'core', fromMs: startMs, toMs: null },
    ...{ pileId: 'cage-2', pileName: 'Cage 2', place: 'bay 3' },
  };
}

const facts = (places: ProbePlace[]): ProbeFacts => ({
  ...{ probeId, label: 'Probe 1', expectedIntervalSeconds: 300, defaultIntervalSeconds: 300 },
  places,
});

/** One reading every five minutes. */
function readings(
  channel: string,
  fromMinutes: number,
  toMinutes: number,
  say: { readonly value: number; readonly quality?: Quality; readonly reason?: QualityReason },
): ProbeReading[] {
  const list: ProbeReading[] = [];
  for (let minutes = fromMinutes; minutes < toMinutes; minutes += 5) {
    const timeMs = startMs + minutes * minuteMs;
    list.push({
      channel,
      timeMs,
      value: say.value,
      quality: say.quality ?? 'good',
      reason: say.reason ?? null,
    });
  }
  return list;
}

function judge(list: readonly ProbeReading[], hours: number, places = [place(core, 'temperature')]) {
  const { subject } = createProbeSubject('gannet-row', facts(places), () => false);
  const { transitions } = advance(subject, list, startMs + hours * hourMs);
  return {
    steps: (condition: ConditionId) =>
      transitions
        .filter(({ alarmId }) => alarmId.endsWith(`.${condition}`))
        .map(({ event, atMs }) => [event, (atMs - startMs) / minuteMs]),
    priority: (condition: ConditionId) => subject.alarms.get(condition)?.priority,
    conditions: () => [...subject.alarms.keys()].sort(),
  };
}

const suspect = (reason: QualityReason, value: number) => ({ value, quality: 'suspect', reason }) as const;

describe('a channel that is doubtful', () => {
  test.each([
    ['stuck', 'probe-stuck', 60],
    ['disagrees-with-pair', 'probe-disagreeing', 30],
    ['calibration-stale', 'probe-calibration-due', 60],
  ] as const)(
    'for being %s raises %s after its delay, and a good reading clears it',
    (reason, condition, delay) => {
      const list = [
        ...readings(core, 0, 60, { value: 60 }),
        ...readings(core, 60, 180, suspect(reason, 61)),
        ...readings(core, 180, 300, { value: 60 }),
      ];
      const judged = judge(list, 5);
      expect(judged.conditions()).toEqual([condition]);
      const [raised, returned] = judged.steps(condition);
      expect(raised).toEqual(['became-active', 60 + delay]);
      expect(returned![0]).toBe('returned-to-normal');
    },
  );

  test('presses more while hot', () => {
    const priorityAt = (celsius: number) =>
      judge(readings(core, 0, 120, suspect('disagrees-with-pair', celsius)), 2).priority('probe-disagreeing');
    expect([priorityAt(62), priorityAt(20)]).toEqual(['high', 'low']);
  });
});

describe('readings that move faster than a pile can', () => {
  const jumpFrom = (good: number, to: number) =>
    judge(
      [...readings(core, 0, 60, { value: good }), ...readings(core, 60, 120, suspect('impossible-rate', to))],
      2,
    );

  test.each([
    [60, 95],
    [60, 15],
    [20, 70],
  ])('raise the probe alarm, pressing, from %d to %d C: it is, or was, hot', (good, to) => {
    const judged = jumpFrom(good, to);
    expect(judged.steps('probe-bad-values')).toEqual([['became-active', 90]]);
    expect(judged.priority('probe-bad-values')).toBe('high');
  });

  test('raise nothing where it is cold: sun on a probe', () => {
    expect(jumpFrom(12, 25).conditions()).toEqual([]);
  });

  test('raise nothing when one honest reading ends them within the delay', () => {
    const list = [
      ...readings(core, 0, 60, { value: 60 }),
      ...readings(core, 60, 70, suspect('impossible-rate', 90)),
      ...readings(core, 70, 180, { value: 60 }),
    ];
    expect(judge(list, 3).conditions()).toEqual([]);
  });
});

describe('bad values, at any pace of sending', () => {
  const every = (minutes: number, bad: readonly number[], say: Partial<ProbeReading>) =>
    judge(
      Array.from({ length: 60 }, (_, index): ProbeReading => {
        const told = { channel: core, timeMs: startMs + index * minutes * minuteMs + 17_000 };
        const plain = { value: 60, quality: 'good', reason: null } as const;
        return { ...told, ...plain, ...(bad.includes(index) ? say : {}) };
      }),
      minutes,
    );
  const faults: readonly [string, Partial<ProbeReading>][] = [
    ['a -127', { value: -127, quality: 'bad', reason: 'did-not-answer' }],
    ['an 85', { value: 85, quality: 'bad', reason: 'power-on-value' }],
    ['a wild value', { value: 91, quality: 'suspect', reason: 'impossible-rate' }],
  ];

  describe.each([1, 5, 10, 20, 30, 60])('a reading every %i min', (minutes) => {
    test.each(faults)('%s now and then raises nothing', (_name, say) => {
      expect(every(minutes, [3, 20, 23, 40, 41], say).conditions()).toEqual([]);
    });

    test.each(faults)('%s that stays is told, and is over when it is', (_name, say) => {
      const stays = Array.from({ length: 40 }, (_, index) => 10 + index);
      const steps = every(minutes, stays, say).steps('probe-bad-values');
      expect(steps[0]![0]).toBe('became-active');
      expect(Number(steps[0]![1])).toBeLessThanOrEqual(10 * minutes + Math.max(30, 2 * minutes + 23));
    });
  });
});

describe('battery', () => {
  const places = [place(core, 'temperature'), place(battery, 'battery')];
  const at = (value: number, list = places) => judge(readings(battery, 0, 300, { value }), 5, list);

  test('low is low, nearly empty is pressing, full is nothing', () => {
    expect(at(0.18).priority('probe-battery-low')).toBe('low');
    expect(at(0.08).priority('probe-battery-low')).toBe('medium');
    expect(at(0.8).conditions()).toEqual([]);
  });

  test('needs no placement, and may be sent in volts', () => {
    expect(at(3.1, [place(core, 'temperature')]).steps('probe-battery-low')).toEqual([
      ['became-active', 120],
    ]);
    expect(at(3.7, [place(core, 'temperature')]).conditions()).toEqual([]);
  });

  test('comes back when it was charged past the deadband', () => {
    const list = (to: number) => [
      ...readings(battery, 0, 300, { value: 0.15 }),
      ...readings(battery, 300, 600, { value: to }),
    ];
    expect(judge(list(0.28), 10, places).steps('probe-battery-low')).toHaveLength(1);
    expect(judge(list(0.9), 10, places).steps('probe-battery-low')).toHaveLength(2);
  });
});

test('a clock that runs ahead has its own alarm, not "bad values"', () => {
  const ahead = readings(core, 0, 60, { value: 60, quality: 'bad', reason: 'future-time' });
  const judged = judge([...ahead, ...readings(core, 60, 120, { value: 60 })], 2);
  expect(judged.conditions()).toEqual(['probe-clock-wrong']);
  expect(judged.steps('probe-clock-wrong').map(([event]) => event)).toEqual([
    'became-active',
    'returned-to-normal',
  ]);
});
