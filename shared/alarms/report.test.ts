import { describe, expect, test } from 'vitest';
import type { AlarmState, AlarmTransition } from './alarm.ts';
import { newAlarm } from './newAlarm.ts';
import { alarmReport } from './report.ts';
import type { ReportInput } from './reportInput.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const minuteMs = 60_000;
/** Midnight in London, in summer time. */
const fromMs = Date.UTC(2026, 5, 1) - hourMs;
const at = (days: number, hours = 0) => fromMs + days * dayMs + hours * hourMs;

const hot = { ...newAlarm('yard', { kind: 'pile', id: 'cage-2' }, 'too-hot-ceiling'), id: 'hot' };
const silent = { ...newAlarm('yard', { kind: 'probe', id: 'p1' }, 'probe-silent'), id: 'silent' };

function step(
  alarm: typeof hot,
  atMs: number,
  event: AlarmTransition['event'],
  from: AlarmState,
  to: AlarmState,
  by: string | null = null,
): ReportInput['transitions'][number] {
  const { id: alarmId, condition, subject } = alarm;
  const rest = { occurrence: 1, note: null, limitsVersion: 0, evidence: [] };
  return { alarmId, condition, subject, atMs, event, from, to, by, ...rest };
}
const text = (personId: string, createdMs: number, change: Partial<ReportInput['texts'][number]> = {}) => ({
  ...{ personId, createdMs, alarmId: 'hot', occurrence: 1, pileId: 'cage-2', priority: 'high' as const },
  ...change,
});

const people = [
  { id: 'ines', name: 'Ines' },
  { id: 'wren', name: 'Wren' },
];
const input = (change: Partial<ReportInput>): ReportInput => ({
  timeZone: 'Europe/London',
  fromMs,
  toMs: at(30),
  nowMs: at(30),
  people,
  alarms: [hot, silent],
  transitions: [],
  texts: [],
  deeds: [],
  ...change,
});
const figure = (report: ReturnType<typeof alarmReport>, id: string) =>
  report.figures.find((one) => one.id === id)!;

describe('texts', () => {
  test('are counted per person and day, at night by the yard’s own clock', () => {
    const texts = [
      text('wren', at(0, 21.9)),
      text('wren', at(0, 22)),
      text('wren', at(1, 5.9)),
      text('wren', at(1, 6)),
    ];
    const report = alarmReport(input({ texts }));
    expect(report.people).toEqual([
      {
        personId: 'wren',
        name: 'Wren',
        texts: 4,
        perDay: 4 / 30,
        atNight: 2,
        busiestDay: { day: '2026-06-01', texts: 2 },
        mostInTenMinutes: 2,
      },
      {
        ...{ personId: 'ines', name: 'Ines', texts: 0, perDay: 0, atNight: 0 },
        busiestDay: null,
        mostInTenMinutes: 0,
      },
    ]);
    expect(figure(report, 'night')).toMatchObject({ value: 2, isMet: false });
    expect(figure(report, 'texts-per-day')).toMatchObject({ value: 4 / 30, isMet: true });
  });

  test('eleven to one person within ten minutes are a flood, eleven to several are not', () => {
    const many = (personId: (index: number) => string) =>
      Array.from({ length: 11 }, (_, index) => text(personId(index), at(3, 10) + index * 30_000));
    const flooded = alarmReport(input({ texts: many(() => 'wren') }));
    expect(figure(flooded, 'ten-minutes')).toMatchObject({ value: 11, isMet: false });
    expect(figure(flooded, 'flood').value).toBeCloseTo(1 / (30 * 144), 9);
    const shared = alarmReport(input({ texts: many((index) => (index % 2 === 0 ? 'wren' : 'ines')) }));
    expect(figure(shared, 'ten-minutes')).toMatchObject({ value: 6, isMet: true });
    expect(figure(shared, 'flood').value).toBe(0);
  });
});

describe('acted upon', () => {
  const texts = [text('wren', at(1)), text('ines', at(1)), text('wren', at(5), { occurrence: 2 })];

  test('counts an occurrence once that somebody answered, or whose pile somebody worked on, in time', () => {
    const transitions = [step(hot, at(1, 2), 'acknowledge', 'unacknowledged', 'acknowledged', 'ines')];
    const deeds = [{ pileId: 'cage-2', timeMs: at(5, 12) }];
    expect(alarmReport(input({ texts, transitions, deeds }))).toMatchObject({ texted: 2, acted: 2 });
  });

  test('does not count what came too late, on another pile, or by itself', () => {
    const transitions = [
      step(hot, at(1, 2), 'returned-to-normal', 'unacknowledged', 'returned-unacknowledged'),
    ];
    const deeds = [
      { pileId: 'cage-2', timeMs: at(5, 12.1) },
      { pileId: 'cage-3', timeMs: at(1, 1) },
    ];
    const report = alarmReport(input({ texts, transitions, deeds }));
    expect(report).toMatchObject({ texted: 2, acted: 0 });
    expect(figure(report, 'acted')).toMatchObject({ value: 0, isMet: false });
  });
});

describe('standing', () => {
  const came = (alarm: typeof hot, atMs: number) =>
    step(alarm, atMs, 'became-active', 'normal', 'unacknowledged');
  const went = (alarm: typeof hot, atMs: number) =>
    step(alarm, atMs, 'returned-to-normal', 'acknowledged', 'normal');

  test('of more than a day is stale; on two alarms at once it counts two', () => {
    const transitions = [
      came(hot, at(1)),
      came(silent, at(2)),
      went(hot, at(4)),
      went(silent, at(3.5)),
      came(hot, at(10)),
      went(hot, at(11)),
    ];
    const report = alarmReport(input({ transitions }));
    expect(report.staleInSpan).toBe(2);
    expect(figure(report, 'stale')).toMatchObject({ value: 1, isMet: true });
    expect(report.worst.map(({ alarmId, hoursStanding }) => [alarmId, hoursStanding])).toEqual([
      ['hot', 96],
      ['silent', 36],
    ]);
  });

  test('since before the span without a step is stale too, and listed as such now', () => {
    const old = { ...hot, state: 'acknowledged' as const, activeSinceMs: at(-3) };
    const report = alarmReport(input({ alarms: [old, silent] }));
    expect(report).toMatchObject({ staleInSpan: 1, staleNow: ['hot'] });
    expect(figure(report, 'stale').value).toBe(1);
  });

  test('is taken of the past as it was then, whatever happened since', () => {
    const later = [came(hot, at(40)), step(silent, at(41), 'returned-to-normal', 'acknowledged', 'normal')];
    const now = { ...hot, state: 'unacknowledged' as const, activeSinceMs: at(40) };
    const report = alarmReport(input({ alarms: [now, silent], transitions: later, nowMs: at(42) }));
    expect(report).toMatchObject({ activations: 0, staleInSpan: 1, staleNow: ['hot'] });
  });

  test('three times within six hours is chattering, within seven it is not', () => {
    const three = (hours: number) => [0, 1, 2].map((index) => came(hot, at(1, (index * hours) / 2)));
    expect(alarmReport(input({ transitions: three(6) })).chattering).toMatchObject([
      { alarmId: 'hot', chattered: 1 },
    ]);
    expect(alarmReport(input({ transitions: three(7) })).chattering).toEqual([]);
  });

  test('the worst ten are those that texted most; their share is of all activations', () => {
    const alarms = Array.from({ length: 12 }, (_, index) => ({ ...hot, id: `a${index}` }));
    const transitions = alarms.flatMap((alarm, index) =>
      Array.from({ length: index === 11 ? 9 : 1 }, (_, times) => came(alarm, at(times + 1))),
    );
    const texts = [text('wren', at(1), { alarmId: 'a3' })];
    const report = alarmReport(input({ alarms, transitions, texts }));
    expect(report.worst.slice(0, 2).map(({ alarmId }) => alarmId)).toEqual(['a3', 'a11']);
    expect(report.worst).toHaveLength(10);
    expect(figure(report, 'worst-ten').value).toBeCloseTo(18 / 20, 9);
  });
});

test('a quiet month meets what can be taken of it, and says what cannot', () => {
  const report = alarmReport(input({}));
  expect(report.figures.filter(({ isMet }) => isMet === false)).toEqual([]);
  expect(report.figures.filter(({ isMet }) => isMet === null).map(({ id }) => id)).toEqual([
    'acted',
    'worst-ten',
    'pressing',
  ]);
});

test('an empty span is refused', () => {
  expect(() => alarmReport(input({ toMs: fromMs }))).toThrow(/toMs is/);
  expect(alarmReport(input({ toMs: fromMs + minuteMs })).texts).toBe(0);
});
