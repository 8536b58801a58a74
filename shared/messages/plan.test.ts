import { expect, test } from 'vitest';
import { newAlarm } from '../alarms/newAlarm.ts';
import type { Person } from '../yard/people.ts';
import { defaultDutyPlan, dutyPlanSchema } from './dutyPlan.ts';
import { goodForHours, overtakenBy } from './lifetime.ts';
import { planTexts, type Telling } from './plan.ts';

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
  language: 'en',
};
const alarm = {
  ...newAlarm('gannet-row', { kind: 'pile', id: 'p1' }, 'too-hot-ceiling'),
  occurrence: 2,
  priority: 'high',
} as const;

const telling = (people: readonly Person[], change: Partial<Telling<string>> = {}): Telling<string> => ({
  ...{ people, ways: [], plan: defaultDutyPlan, timeZone: 'Europe/London', textChannel: 'sms-http' },
  nowMs: Date.parse('2026-11-25T12:00:00Z'),
  ...change,
});

test('texts go to people who want them, from their priority up', () => {
  const people: Person[] = [
    wren,
    { ...wren, id: 'no-phone', phone: null },
    { ...wren, id: 'no-texts', receivesTexts: false },
    { ...wren, id: 'gone', disabled: true },
    { ...wren, id: 'only-highest', textsFrom: 'highest' },
    { ...wren, id: 'same', textsFrom: 'high' },
  ];
  expect(planTexts(alarm, telling(people)).map(({ person }) => person.id)).toEqual(['wren', 'same']);
});

test('the same step planned twice has the same key, another occurrence or person another one', () => {
  const key = (occurrence: number, person: Person) =>
    planTexts({ ...alarm, occurrence }, telling([person]))[0]!.idempotencyKey;
  expect(key(2, wren)).toBe(key(2, wren));
  expect(new Set([key(2, wren), key(3, wren), key(2, { ...wren, id: 'other' })]).size).toBe(3);
});

const turn = (personId: string, order: number) => ({ personId, order, from: '00:00', to: '00:00' });
const other = { ...wren, id: 'other' };

test('only the first on duty is told; of fire danger everybody on duty is, and nobody who is not', () => {
  const plan = dutyPlanSchema.parse({ shifts: [turn('other', 1), turn('wren', 2)] });
  const people = [wren, other, { ...wren, id: 'off' }];
  const told = (priority: 'high' | 'highest') =>
    planTexts({ ...alarm, priority }, telling(people, { plan })).map(({ person }) => person.id);
  expect(told('high')).toEqual(['other']);
  expect(told('highest')).toEqual(['other', 'wren']);
});

test('one who cannot be reached is passed over for the next', () => {
  const plan = dutyPlanSchema.parse({ shifts: [turn('other', 1), turn('wren', 2)] });
  const people = [wren, { ...other, phone: null }];
  expect(planTexts(alarm, telling(people, { plan })).map(({ person }) => person.id)).toEqual(['wren']);
});

test('the priority decides by which ways it goes, and a way that is gone is not used', () => {
  const way = (id: string, toldFrom: 'highest' | 'low', goneMs: number | null = null) => ({
    ...{ id, toldFrom, goneMs, personId: 'wren', channel: 'email', address: `${id}@yard.example` },
  });
  const ways = [way('all', 'low'), way('fire', 'highest'), way('ended', 'low', 1)];
  const told = (priority: 'low' | 'high' | 'highest') =>
    planTexts({ ...alarm, priority }, telling([wren], { ways })).map(({ address }) => address);
  expect(told('low')).toEqual(['all@yard.example']);
  expect(told('high')).toEqual([wren.phone, 'all@yard.example']);
  expect(told('highest')).toEqual([wren.phone, 'all@yard.example', 'fire@yard.example']);
  const keys = planTexts(alarm, telling([wren], { ways })).map(({ idempotencyKey }) => idempotencyKey);
  expect(new Set(keys).size).toBe(keys.length);
});

test('a forecast is worth sending for two hours, and what it foretold goes beyond it', () => {
  expect(goodForHours('too-hot-heading-there', 12)).toBe(2);
  expect(goodForHours('too-hot-ceiling', 12)).toBe(12);
  const heading = newAlarm('gannet-row', { kind: 'pile', id: 'p1' }, 'too-hot-heading-there');
  const dry = newAlarm('gannet-row', { kind: 'pile', id: 'p1' }, 'drying-out-measured');
  expect(overtakenBy(alarm, [heading, alarm, dry])).toEqual([heading.id]);
  expect(overtakenBy(heading, [heading, alarm, dry])).toEqual([]);
});
