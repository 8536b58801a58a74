import { expect, test } from 'vitest';
import { askedMonth, monthAfter, monthOf, spanOf } from './months.ts';

const timeZone = 'Europe/London';
const nowMs = Date.parse('2026-11-26T12:00:00Z');

test('a month is from midnight to midnight by the yard’s clock, whatever its clocks did', () => {
  expect(spanOf(timeZone, '2026-10', nowMs)).toEqual({
    fromMs: Date.parse('2026-09-30T23:00:00Z'),
    toMs: Date.parse('2026-11-01T00:00:00Z'),
  });
  expect(spanOf(timeZone, '2026-11', nowMs).toMs).toBe(nowMs);
  expect(monthOf('Pacific/Auckland', Date.parse('2026-10-31T12:00:00Z'))).toBe('2026-11');
});

test('months go on over the end of a year', () => {
  expect([monthAfter('2026-12', 1), monthAfter('2026-01', -1)]).toEqual(['2027-01', '2025-12']);
});

test('an address without a sensible month means the last full one', () => {
  for (const asked of [undefined, '2026-13', '2026-12', 'x'])
    expect(askedMonth(asked, timeZone, nowMs)).toBe('2026-10');
  expect(askedMonth('2026-11', timeZone, nowMs)).toBe('2026-11');
});
