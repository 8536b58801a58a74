import { describe, expect, test } from 'vitest';
import type { Priority } from './alarm.ts';
import { calm, isCalm, type PersonFlood, stepPersonFlood } from './floodGate.ts';

const minuteMs = 60_000;
const text = (id: string, priority: Priority = 'medium') => ({ id, priority });
const many = (count: number, from = 0) =>
  Array.from({ length: count }, (_, index) => text(`t${from + index}`));

/** Passes texts minute by minute and tells what went through and what was told together. */
function person() {
  let standing: PersonFlood<string> = calm();
  return {
    standing: () => standing,
    pass(minutes: number, texts: ReturnType<typeof text>[] = []) {
      const step = stepPersonFlood(standing, texts, minutes * minuteMs, ({ id }) => id);
      standing = step.standing;
      return { through: step.through.map(({ id }) => id), together: [...step.together] };
    },
  };
}

test('ten texts in ten minutes go one by one', () => {
  const one = person();
  for (let minutes = 0; minutes < 10; minutes += 1)
    expect(one.pass(minutes, many(1, minutes)).through).toHaveLength(1);
  expect(one.standing().flood.flooding).toBe(false);
});

test('eleven at once become one', () => {
  expect(person().pass(0, many(11))).toEqual({ through: [], together: many(11).map(({ id }) => id) });
});

test('the eleventh within ten minutes starts the flood: it and what follows are told together', () => {
  const one = person();
  one.pass(0, many(10));
  expect(one.pass(5, [text('a')])).toEqual({ through: [], together: ['a'] });
  expect(one.pass(6, [text('b')])).toEqual({ through: [], together: [] });
  expect(one.pass(7, [text('c')])).toEqual({ through: [], together: [] });
  expect(one.pass(17)).toEqual({ through: [], together: ['b', 'c'] });
  expect(one.pass(18, [text('d')])).toEqual({ through: ['d'], together: [] });
});

test('fire danger is never kept back', () => {
  const one = person();
  one.pass(0, many(11));
  expect(one.pass(1, [text('fire', 'highest'), text('x')])).toEqual({ through: ['fire'], together: [] });
});

test('a long flood is told of again every hour, and only with what is new', () => {
  const one = person();
  one.pass(0, many(20));
  const told: number[] = [];
  for (let minutes = 1; minutes <= 130; minutes += 1)
    if (one.pass(minutes, [text(`m${minutes}`)]).together.length > 0) told.push(minutes);
  expect(told).toEqual([60, 120]);
});

describe('after the flood', () => {
  test('nothing is remembered that does not matter', () => {
    const one = person();
    one.pass(0, many(11));
    expect(isCalm(one.standing(), 9 * minuteMs)).toBe(false);
    one.pass(11);
    expect(isCalm(one.standing(), 11 * minuteMs)).toBe(true);
  });
});
