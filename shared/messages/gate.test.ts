import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Priority, priorities } from '../alarms/alarm.ts';
import { defaultDutyPlan } from './dutyPlan.ts';
import { type GatedText, gate } from './gate.ts';

const noon = Date.parse('2026-11-25T12:00:00Z');
const night = Date.parse('2026-11-25T23:00:00Z');
const minuteMs = 60_000;
const timeZone = 'Europe/London';
const textOf = (
  id: string,
  priority: Priority = 'high',
  heldFor: GatedText['heldFor'] = null,
): GatedText => ({
  ...{ id, priority, heldFor },
});
const at = (nowMs: number, text: GatedText, sentMs: readonly number[], behind: readonly GatedText[] = []) =>
  gate({ text, behind, sentMs, lastOtherMs: Math.max(...sentMs, 0), plan: defaultDutyPlan, timeZone, nowMs });
const minutesAgo = (...minutes: readonly number[]) => minutes.map((ago) => noon - ago * minuteMs);

describe('the gate before a person', () => {
  test('lets a text pass by day while there are few', () => {
    expect(at(noon, textOf('a'), minutesAgo(50, 40, 30, 20))).toEqual({ kind: 'send' });
  });

  test('makes the last text of the hour tell all that is there, and when it goes on', () => {
    const behind = [textOf('b'), textOf('c', 'low'), textOf('d', 'highest')];
    const verdict = at(noon, textOf('a'), minutesAgo(50, 40, 30, 20, 10), behind);
    expect(verdict).toMatchObject({ kind: 'together', why: 'cap', nextMs: noon + 10 * minuteMs });
    expect(verdict.kind === 'together' && verdict.texts.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  });

  test('keeps back what is beyond the hour until a place is free', () => {
    const verdict = at(noon, textOf('a'), minutesAgo(50, 40, 30, 20, 10, 5));
    expect(verdict).toEqual({ kind: 'hold', heldFor: 'cap', untilMs: noon + 10 * minuteMs });
    const more = at(noon, textOf('a'), minutesAgo(55, 50, 40, 30, 20, 10, 5));
    expect(more).toMatchObject({ untilMs: noon + 10 * minuteMs });
  });

  test('gives what can wait only half of the hour, so that what is pressing still comes by itself', () => {
    const three = minutesAgo(30, 20, 10);
    expect(at(noon, textOf('a', 'low'), three)).toMatchObject({ kind: 'hold', heldFor: 'cap' });
    expect(at(noon, textOf('a', 'medium'), three.slice(1), [textOf('b')])).toMatchObject({
      kind: 'together',
      texts: [{ id: 'a' }],
    });
    expect(at(noon, textOf('a', 'high'), three)).toEqual({ kind: 'send' });
  });

  test('lets the first text pass and tells in one what comes within a minute after it', () => {
    const soon = noon + 20_000;
    expect(at(soon, textOf('a'), [noon])).toEqual({
      kind: 'hold',
      heldFor: 'group',
      untilMs: noon + minuteMs,
    });
    expect(at(soon, textOf('a', 'highest'), [noon])).toEqual({ kind: 'send' });
    const held = textOf('b', 'high', 'group');
    const behind = [textOf('c', 'high', 'group'), textOf('d', 'low', 'group')];
    expect(at(noon + minuteMs, held, [noon], behind)).toMatchObject({
      ...{ kind: 'together', why: 'group', nextMs: null },
      texts: [{ id: 'b' }, { id: 'c' }, { id: 'd' }],
    });
    expect(at(noon + minuteMs, held, [noon])).toEqual({ kind: 'send' });
  });

  test('lets fire danger pass at any hour and beyond any number', () => {
    const many = minutesAgo(9, 8, 7, 6, 5, 4, 3, 2, 1);
    for (const nowMs of [noon, night])
      expect(at(nowMs, textOf('a', 'highest'), many)).toEqual({ kind: 'send' });
  });

  test('keeps what can wait for the morning, and tells it then in one text', () => {
    const verdict = at(night, textOf('a', 'low'), []);
    const morning = Date.parse('2026-11-26T06:30:00Z');
    expect(verdict).toEqual({ kind: 'hold', heldFor: 'quiet', untilMs: morning });
    expect(at(night, textOf('a', 'high'), [])).toEqual({ kind: 'send' });
    const behind = [textOf('b', 'low', 'quiet'), textOf('c', 'high')];
    expect(at(morning, textOf('a', 'low', 'quiet'), [], behind)).toMatchObject({
      kind: 'together',
      why: 'morning',
      texts: [{ id: 'a' }, { id: 'b' }],
      nextMs: null,
    });
    expect(at(morning, textOf('a', 'low', 'quiet'), [])).toEqual({ kind: 'send' });
  });

  test('never sends more than the hour allows, never delays fire danger, and in the end tells everything', () => {
    const arrival = fc.record({
      minute: fc.integer({ min: 0, max: 600 }),
      priority: fc.constantFrom(...priorities),
    });
    fc.assert(
      fc.property(fc.array(arrival, { maxLength: 120 }), (arrivals) => {
        const { told, sentMs, lateFire } = play(arrivals);
        expect(lateFire).toBe(0);
        expect(told.toSorted((a, b) => a - b)).toEqual(arrivals.map((_one, index) => index));
        for (const end of sentMs) {
          const inHour = sentMs.filter((one) => one > end - 60 * minuteMs && one <= end).length;
          expect(inHour).toBeLessThanOrEqual(defaultDutyPlan.textsPerHour);
        }
      }),
      { numRuns: 60 },
    );
  });
});

interface Waiting extends GatedText {
  readonly dueMs: number;
}

/** Plays two days from noon on, minute by minute, as the notifier does it: the most pressing of those due first. */
function play(arrivals: readonly { readonly minute: number; readonly priority: Priority }[]) {
  let waiting: Waiting[] = [];
  const told: number[] = [];
  const sentMs: number[] = [];
  let lateFire = 0;
  for (let minute = 0; minute < 2 * 1440; minute += 1) {
    const nowMs = noon + minute * minuteMs;
    for (const [index, one] of arrivals.entries())
      if (one.minute === minute) waiting.push({ ...textOf(String(index), one.priority), dueMs: nowMs });
    for (let due = dueAt(waiting, nowMs); due.length > 0; due = dueAt(waiting, nowMs)) {
      const [text, ...behind] = due as [Waiting, ...Waiting[]];
      const verdict = at(nowMs, text, sentMs, behind);
      const gone = verdict.kind === 'together' ? verdict.texts : [text];
      waiting = waiting.filter((one) => !gone.includes(one));
      if (verdict.kind === 'hold')
        waiting.push({ ...text, heldFor: verdict.heldFor, dueMs: verdict.untilMs });
      else told.push(...gone.map(({ id }) => Number(id)));
      if (verdict.kind === 'hold' && text.priority === 'highest') lateFire += 1;
      if (verdict.kind !== 'hold' && text.priority !== 'highest') sentMs.push(nowMs);
    }
  }
  return { told, sentMs, lateFire };
}

function dueAt(waiting: readonly Waiting[], nowMs: number): Waiting[] {
  const rank = ({ priority }: Waiting) => priorities.indexOf(priority);
  return waiting.filter(({ dueMs }) => dueMs <= nowMs).sort((a, b) => rank(a) - rank(b));
}
