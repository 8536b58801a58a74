import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dutyDays } from './dutyDays.ts';
import { type DutyPlan, dutyPlanSchema } from './dutyPlan.ts';
import { instantOf } from './localInstant.ts';
import { onDuty } from './roster.ts';

const timeZone = 'Europe/London';
/** A Wednesday. */
const nowMs = Date.UTC(2026, 10, 25, 12);
const plan = (change: object) => dutyPlanSchema.parse(change);
const turn = (personId: string, change: object = {}) => ({ personId, from: '08:00', to: '20:00', ...change });
const spans = (made: DutyPlan, day: number) =>
  dutyDays(made, timeZone, nowMs, day + 1)[day]!.spans.map(({ fromMinute, toMinute, rounds }) => [
    fromMinute / 60,
    toMinute / 60,
    rounds,
  ]);

it('shows a day with nobody as one empty stretch', () => {
  expect(dutyDays(plan({}), timeZone, nowMs, 1)).toEqual([
    {
      day: '2026-11-25',
      weekday: 3,
      isHoliday: false,
      spans: [{ fromMinute: 0, toMinute: 1440, rounds: [] }],
    },
  ]);
});

it('carries a night over midnight into the next day', () => {
  const nights = plan({ shifts: [turn('ash', { from: '22:00', to: '06:00', weekdays: [3] })] });
  expect(spans(nights, 0)).toEqual([
    [0, 22, []],
    [22, 24, [['ash']]],
  ]);
  expect(spans(nights, 1)).toEqual([
    [0, 6, [['ash']]],
    [6, 24, []],
  ]);
});

it('shows a holiday, who is away, and who comes second', () => {
  const made = plan({
    shifts: [
      turn('ash', { holidays: 'not' }),
      turn('bo', { holidays: 'only', from: '00:00', to: '00:00' }),
      turn('cy', { order: 2 }),
    ],
    holidays: ['2026-11-26'],
    away: [{ personId: 'cy', fromDay: '2026-11-27', toDay: '2026-11-28' }],
  });
  expect(spans(made, 0)[1]).toEqual([8, 20, [['ash'], ['cy']]]);
  expect(dutyDays(made, timeZone, nowMs, 2)[1]!.isHoliday).toBe(true);
  expect(spans(made, 1).map(([, , rounds]) => rounds)).toEqual([[['bo']], [['bo'], ['cy']], [['bo']]]);
  expect(spans(made, 2)[1]).toEqual([8, 20, [['ash']]]);
});

it('says at every minute of every day, clock changes too, what the roster says', () => {
  const clock = fc.integer({ min: 0, max: 47 }).map((half) => {
    const hour = String(Math.floor(half / 2)).padStart(2, '0');
    return `${hour}:${half % 2 === 0 ? '00' : '30'}`;
  });
  const shift = fc.record({
    personId: fc.constantFrom('ash', 'bo', 'cy'),
    from: clock,
    to: clock,
    order: fc.integer({ min: 1, max: 3 }),
    weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }),
  });
  const startMs = Date.UTC(2026, 9, 23, 12);
  fc.assert(
    fc.property(
      fc.array(shift, { maxLength: 6 }),
      fc.nat(4),
      fc.integer({ min: 0, max: 47 }),
      (shifts, day, half) => {
        const made = plan({ shifts });
        const shown = dutyDays(made, timeZone, startMs, day + 1)[day]!;
        const minute = half * 30;
        // The hour that is skipped or comes twice has no minute of its own to compare.
        if (shown.day === '2026-10-25' && minute >= 60 && minute < 180) return;
        const span = shown.spans.find(
          ({ fromMinute, toMinute }) => fromMinute <= minute && minute < toMinute,
        )!;
        expect(span.rounds).toEqual(onDuty(made, timeZone, instantOf(timeZone, shown.day, minute)));
      },
    ),
    { numRuns: 40, seed: 11 },
  );
});
