import { expect, test } from 'vitest';
import { newAlarm } from '../alarms/newAlarm.ts';
import type { Person } from '../yard/people.ts';
import { planTexts } from './plan.ts';

const wren: Person = {
  id: 'wren',
  yardId: 'gannet-row',
  login: 'wren',
  name: 'Wren',
  role: 'keeper',
  phone: '+441632960123',
  receivesTexts: true,
  textsFrom: 'medium',
  disabled: false,
};
const alarm = {
  ...newAlarm('gannet-row', { kind: 'pile', id: 'p1' }, 'too-hot-ceiling'),
  occurrence: 2,
  priority: 'high',
} as const;

test('texts go to people who want them, from their priority up', () => {
  const people: Person[] = [
    wren,
    { ...wren, id: 'no-phone', phone: null },
    { ...wren, id: 'no-texts', receivesTexts: false },
    { ...wren, id: 'gone', disabled: true },
    { ...wren, id: 'only-highest', textsFrom: 'highest' },
    { ...wren, id: 'same', textsFrom: 'high' },
  ];
  expect(planTexts(alarm, people).map(({ person }) => person.id)).toEqual(['wren', 'same']);
});

test('the same step planned twice has the same key, another occurrence or person another one', () => {
  const key = (occurrence: number, person: Person) =>
    planTexts({ ...alarm, occurrence }, [person])[0]!.idempotencyKey;
  expect(key(2, wren)).toBe(key(2, wren));
  expect(new Set([key(2, wren), key(3, wren), key(2, { ...wren, id: 'other' })]).size).toBe(3);
});
