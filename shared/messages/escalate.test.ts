import { describe, expect, test } from 'vitest';
import { defaultDutyPlan } from './dutyPlan.ts';
import { escalate, type Told, type UnansweredAlarm } from './escalate.ts';

const startMs = Date.UTC(2026, 10, 25, 12);
const at = (minute: number) => startMs + minute * 60_000;
const rounds = [['ash'], ['wren', 'tern'], ['owl']];
const told = (personId: string, minute: number, change: Partial<Told> = {}): Told => ({
  ...{ personId, step: 'raised', writtenMs: at(minute), state: 'gone' },
  ...change,
});
const alarm = (those: readonly Told[], change: Partial<UnansweredAlarm> = {}): UnansweredAlarm => ({
  ...{ priority: 'high', sinceMs: startMs, told: those },
  ...change,
});
const now = (minute: number, one: UnansweredAlarm) => escalate(one, rounds, defaultDutyPlan, at(minute));

describe('an alarm nobody answers', () => {
  test('goes to the next round after the minutes of its priority, and not before', () => {
    expect(now(29, alarm([told('ash', 0)]))).toBeNull();
    expect(now(30, alarm([told('ash', 0)]))).toEqual({ kind: 'next', personIds: ['wren', 'tern'] });
    const fire = alarm([told('ash', 0)], { priority: 'highest' });
    expect(now(10, fire)).toMatchObject({ kind: 'next' });
    expect(now(100_000, alarm([told('ash', 0)], { priority: 'low' }))).toBeNull();
  });

  test('counts from when the last ones were told', () => {
    const those = [told('ash', 0), told('wren', 30, { step: 'next' }), told('tern', 30, { step: 'next' })];
    expect(now(59, alarm(those))).toBeNull();
    expect(now(60, alarm(those))).toEqual({ kind: 'next', personIds: ['owl'] });
  });

  test('does not wait for somebody who could not be reached', () => {
    expect(now(1, alarm([told('ash', 0, { state: 'failed' })]))).toMatchObject({ kind: 'next' });
    const one = [told('ash', 0), told('wren', 30, { state: 'failed' }), told('tern', 30)];
    expect(now(31, alarm(one))).toBeNull();
  });

  test('does not go on at night with what waits for the morning', () => {
    expect(now(600, alarm([told('ash', 0, { state: 'held' })]))).toBeNull();
  });

  test('told only with others in a flood, it goes on from there', () => {
    expect(now(29, alarm([]))).toBeNull();
    expect(now(30, alarm([]))).toEqual({ kind: 'next', personIds: ['wren', 'tern'] });
  });

  test('ends with those who are responsible: once, of fire danger again and again for an hour', () => {
    const all = ['ash', 'wren', 'tern', 'owl'].map((personId) => told(personId, 0));
    expect(now(30, alarm(all))).toEqual({ kind: 'nobody-answers', round: 1 });
    const owner = (minute: number) => told('boss', minute, { step: 'owner' });
    expect(now(500, alarm([...all, owner(30)]))).toBeNull();
    const fire = (count: number) =>
      alarm([...all, ...Array.from({ length: count }, (_, index) => owner(10 * (index + 1)))], {
        priority: 'highest',
      });
    expect(now(15, fire(1))).toBeNull();
    expect(now(20, fire(1))).toEqual({ kind: 'nobody-answers', round: 2 });
    expect(now(500, fire(6))).toBeNull();
  });
});
