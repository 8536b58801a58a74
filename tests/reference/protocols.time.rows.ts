import { createTask } from 'node-cron';
import { expect } from 'vitest';
import type { CheckRow } from './checkRow.ts';

const dayMs = 86_400_000;
const minuteMs = 60_000;

/** Days of June 2026 (UTC) on which an expression fires at 04:30. */
function daysInJune2026(expression: string): number[] {
  const task = createTask(expression, () => {}, { timezone: 'UTC' });
  const first = Date.UTC(2026, 5, 1, 4, 30);
  const days = Array.from({ length: 30 }, (_, index) => index + 1);
  const matching = days.filter((day) => task.match(new Date(first + (day - 1) * dayMs)));
  void task.destroy();
  return matching;
}

/** UTC times, as HH:MM, at which a zone's clock shows a local time on a date. */
function utcTimesOf(timeZone: string, date: string, localTime: string): string[] {
  const clock = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' });
  const start = Date.parse(`${date}T00:00:00Z`) - dayMs / 2;
  const minutes = Array.from({ length: 2 * 1440 }, (_, index) => start + index * minuteMs);
  return minutes
    .filter((timeMs) => clock.format(timeMs) === `${date} ${localTime}`)
    .map((timeMs) => new Date(timeMs).toISOString().slice(11, 16));
}

const row = (id: string, source: string, status: string, check: () => void): CheckRow => ({
  id,
  source,
  status,
  check,
});

export const rows: CheckRow[] = [
  row('C-110', 'crontab(5) rule', 'confirmed by lookup, R', () => {
    // Our scheduler wants both day fields to match; crontab wants either. So a rule with both is written as two.
    const either = [...daysInJune2026('30 4 1,15 * *'), ...daysInJune2026('30 4 * * 5')];
    expect(either.sort((first, second) => first - second)).toEqual([1, 5, 12, 15, 19, 26]);
    expect(daysInJune2026('30 4 1,15 * 5')).toEqual([]);
  }),
  row('C-111', 'crontab(5)', 'confirmed by lookup', () => {
    const task = createTask('*/35 * * * *', () => {}, { timezone: 'UTC' });
    const minutes = Array.from({ length: 120 }, (_, index) => index);
    const matching = minutes.filter((minute) => task.match(new Date(Date.UTC(2026, 5, 1, 0, minute))));
    void task.destroy();
    expect(matching).toEqual([0, 35, 60, 95]);
  }),
  row('C-112', 'tz database', 'R', () => {
    expect(utcTimesOf('Europe/London', '2026-03-29', '01:30')).toEqual([]);
    expect(utcTimesOf('Europe/London', '2026-03-29', '02:00')).toEqual(['01:00']);
  }),
  row('C-113', 'tz database', 'R', () => {
    expect(utcTimesOf('Europe/London', '2026-10-25', '01:30')).toEqual(['00:30', '01:30']);
  }),
  row('C-114', 'tz database', 'R', () => {
    expect(utcTimesOf('America/New_York', '2026-03-08', '02:30')).toEqual([]);
    expect(utcTimesOf('America/New_York', '2026-03-08', '03:00')).toEqual(['07:00']);
  }),
  row('C-115', 'tz database', 'R', () => {
    expect(utcTimesOf('America/New_York', '2026-11-01', '01:30')).toEqual(['05:30', '06:30']);
  }),
];
