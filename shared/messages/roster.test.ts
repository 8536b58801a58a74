import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dueSince } from './dueSince.ts';
import { type DutyPlan, type DutyShift, defaultDutyPlan, dutyPlanSchema } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment, weekdayOf } from './localInstant.ts';
import { quietUntilMs } from './quietHours.ts';
import { onDuty, roundsOf } from './roster.ts';

const london = 'Europe/London';
const newYork = 'America/New_York';
const utc = (text: string) => Date.parse(`${text}:00Z`);
const everyDay = [1, 2, 3, 4, 5, 6, 7];
const shift = (personId: string, from: string, to: string, change: Partial<DutyShift> = {}): DutyShift => ({
  ...{ personId, from, to, order: 1, weekdays: everyDay, holidays: 'as-any-day' },
  ...change,
});
const planOf = (shifts: readonly DutyShift[], change: Partial<DutyPlan> = {}): DutyPlan => ({
  ...defaultDutyPlan,
  ...change,
  shifts: [...shifts],
});

describe('a time of day on the days clocks change', () => {
  test.each([
    ['C-112 skipped: the moment of the jump', london, '2026-03-29', 90, '2026-03-29T01:00'],
    ['C-113 twice: the first one', london, '2026-10-25', 90, '2026-10-25T00:30'],
    ['C-114 skipped: the moment of the jump', newYork, '2026-03-08', 150, '2026-03-08T07:00'],
    ['C-115 twice: the first one', newYork, '2026-11-01', 90, '2026-11-01T05:30'],
    ['an hour before the jump', london, '2026-03-29', 30, '2026-03-29T00:30'],
    ['after the jump', london, '2026-03-29', 150, '2026-03-29T01:30'],
    ['after the clocks went back', london, '2026-10-25', 120, '2026-10-25T02:00'],
  ])('%s', (_name, zone, day, minute, expected) => {
    expect(new Date(instantOf(zone, day, minute)).toISOString()).toBe(`${expected}:00.000Z`);
  });

  test('what the clock shows leads back to the instant, or to the hour before where it shows it twice', () => {
    const zones = fc.constantFrom(london, newYork, 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC');
    const minutes = fc.integer({
      min: utc('2025-01-01T00:00') / 60_000,
      max: utc('2027-12-31T00:00') / 60_000,
    });
    fc.assert(
      fc.property(zones, minutes, (zone, atMinute) => {
        const { day, minute, weekday } = localMoment(zone, atMinute * 60_000);
        const back = instantOf(zone, day, minute);
        expect(localMoment(zone, back)).toEqual({ day, minute, weekday });
        expect([0, 30, 60]).toContain(atMinute - back / 60_000);
      }),
    );
  });
});

describe('who is on duty', () => {
  const handOver = planOf([shift('ash', '01:30', '13:30'), shift('wren', '13:30', '01:30')]);

  test.each([
    ['spring', '2026-03-28T00:00', '2026-03-31T00:00'],
    ['autumn', '2026-10-24T00:00', '2026-10-27T00:00'],
  ])(
    'is exactly one person at any time over the %s change, with a hand-over at the changed hour',
    (_n, from, to) => {
      for (let atMs = utc(from); atMs < utc(to); atMs += 5 * 60_000) {
        const rounds = onDuty(handOver, london, atMs);
        expect(rounds.map((round) => round.length)).toEqual([1]);
      }
    },
  );

  test('hands over once on the night of the repeated hour, and does not hand back', () => {
    const at = (text: string) => onDuty(handOver, london, utc(text))[0];
    expect(at('2026-10-25T00:29')).toEqual(['wren']);
    expect(at('2026-10-25T00:30')).toEqual(['ash']);
    expect(at('2026-10-25T01:15')).toEqual(['ash']);
    expect(at('2026-10-25T01:45')).toEqual(['ash']);
  });

  test('follows weekdays: a turn belongs to the day it begins on', () => {
    const plan = planOf([shift('ash', '20:00', '06:00', { weekdays: [5] })]);
    expect(onDuty(plan, london, utc('2026-11-27T23:00'))).toEqual([['ash']]);
    expect(onDuty(plan, london, utc('2026-11-28T05:59'))).toEqual([['ash']]);
    expect(onDuty(plan, london, utc('2026-11-28T06:00'))).toEqual([]);
    expect(onDuty(plan, london, utc('2026-11-28T23:00'))).toEqual([]);
  });

  test('follows holidays and absences', () => {
    const plan = planOf(
      [
        shift('ash', '00:00', '00:00', { holidays: 'not' }),
        shift('wren', '00:00', '00:00', { holidays: 'only', weekdays: [1] }),
      ],
      { holidays: ['2026-12-25'], away: [{ personId: 'ash', fromDay: '2026-12-28', toDay: '2026-12-29' }] },
    );
    expect(onDuty(plan, london, utc('2026-12-24T12:00'))).toEqual([['ash']]);
    expect(onDuty(plan, london, utc('2026-12-25T12:00'))).toEqual([['wren']]);
    expect(onDuty(plan, london, utc('2026-12-28T12:00'))).toEqual([]);
    expect(onDuty(plan, london, utc('2026-12-30T12:00'))).toEqual([['ash']]);
  });

  test('comes in rounds; a person on two turns is told in the earlier one', () => {
    const plan = planOf([
      shift('wren', '00:00', '00:00', { order: 2 }),
      shift('ash', '00:00', '00:00', { order: 2 }),
      shift('ash', '08:00', '18:00'),
    ]);
    expect(onDuty(plan, london, utc('2026-11-25T12:00'))).toEqual([['ash'], ['wren']]);
    expect(onDuty(plan, london, utc('2026-11-25T20:00'))).toEqual([['wren', 'ash']]);
  });

  test('is everybody where there is no plan, where it has a gap, and where nobody on it can be reached', () => {
    const people = [{ id: 'ash' }, { id: 'wren' }];
    const atMs = utc('2026-11-25T12:00');
    const gap = planOf([shift('ash', '13:00', '14:00')]);
    const unreachable = planOf([shift('finch', '00:00', '00:00')]);
    for (const plan of [defaultDutyPlan, gap, unreachable])
      expect(roundsOf(plan, london, atMs, people)).toEqual([['ash', 'wren']]);
    expect(roundsOf(planOf([shift('ash', '00:00', '00:00')]), london, atMs, people)).toEqual([['ash']]);
    expect(roundsOf(defaultDutyPlan, london, atMs, [])).toEqual([]);
  });
});

describe('quiet hours', () => {
  test('hold what may wait until the morning of that very night, and nothing that wakes', () => {
    const until = (text: string, priority: 'high' | 'medium' | 'low') =>
      quietUntilMs(defaultDutyPlan, london, priority, utc(text));
    expect(until('2026-11-25T23:00', 'medium')).toBe(utc('2026-11-26T06:30'));
    expect(until('2026-11-26T03:00', 'low')).toBe(utc('2026-11-26T06:30'));
    expect(until('2026-11-26T06:30', 'low')).toBeNull();
    expect(until('2026-11-26T12:00', 'low')).toBeNull();
    expect(until('2026-11-26T03:00', 'high')).toBeNull();
    // The night the clocks go forward: 06:30 summer time.
    expect(until('2026-03-28T23:00', 'low')).toBe(utc('2026-03-29T05:30'));
  });

  test('may be none', () => {
    const none = { ...defaultDutyPlan, quiet: null };
    expect(quietUntilMs(none, london, 'low', utc('2026-11-26T03:00'))).toBeNull();
  });
});

describe('what is due since the last run', () => {
  const morning = { at: '02:30', weekday: null };

  test('is made up for once, however much was missed', () => {
    const now = utc('2026-11-26T09:00');
    expect(dueSince(morning, london, utc('2026-11-26T02:00'), now)).toBe(utc('2026-11-26T02:30'));
    expect(dueSince(morning, london, utc('2026-11-20T02:30'), now)).toBe(utc('2026-11-26T02:30'));
    expect(dueSince(morning, london, utc('2026-11-26T02:30'), now)).toBeNull();
  });

  test('runs once on the day whose hour is skipped and once on the day it comes twice', () => {
    const runsOn = (zone: string, day: string) => {
      let last = instantOf(zone, day, 0) - 1;
      let runs = 0;
      const end = instantOf(zone, dayAfter(day), 0);
      for (let nowMs = last; nowMs < end; nowMs += 5 * 60_000) {
        const due = dueSince(morning, zone, last, nowMs);
        if (due === null) continue;
        runs += 1;
        last = nowMs;
      }
      return runs;
    };
    for (const day of ['2026-03-08', '2026-11-01', '2026-06-01']) expect(runsOn(newYork, day)).toBe(1);
  });

  test('keeps to its weekday', () => {
    const monday = { at: '07:00', weekday: 1 };
    expect(weekdayOf('2026-11-23')).toBe(1);
    const due = dueSince(monday, london, 0, utc('2026-11-25T12:00'));
    expect(due).toBe(utc('2026-11-23T07:00'));
  });
});

test('a plan is refused with the field that is wrong', () => {
  const refused = dutyPlanSchema.safeParse({ shifts: [{ personId: 'ash', from: '25:00', to: '06:00' }] });
  expect(refused.error?.issues[0]?.path).toEqual(['shifts', 0, 'from']);
});
