import { expect, test } from 'vitest';
import type { Message, Records } from '../../../services/records/port.ts';
import { minuteMs, queue, sampleAlarm, sampleMessage, sampleYard, startMs, stepOf } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeClaims(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('only what is due and not past its time is taken, and only once while the lease runs', async () => {
    const sample = await sampleYard(at.records);
    const to = (address: string, change: object = {}) => sampleMessage(sample, { address, ...change });
    const [due] = await queue(at.records, sample.yard.id, [
      to('+1'),
      to('+2', { notBeforeMs: startMs + 1 }),
      to('+3', { expiresMs: startMs }),
    ]);
    const taken = await claimAt(at.records, startMs);
    expect(taken).toMatchObject([{ id: due, state: 'sending', attempts: 0 }]);
    expect(await claimAt(at.records, startMs)).toEqual([]);
    expect(await at.records.messages.claimDue({ ...claimOf(startMs + 1), limit: 0 })).toEqual([]);
    expect(await claimAt(at.records, startMs + 1)).toHaveLength(1);
  });

  test('a message whose claimant died waits again when the lease ends', async () => {
    const sample = await sampleYard(at.records);
    const [id] = await queue(at.records, sample.yard.id, [sampleMessage(sample)]);
    await claimAt(at.records, startMs);
    expect(await claimAt(at.records, startMs + minuteMs - 1)).toEqual([]);
    expect(await claimAt(at.records, startMs + minuteMs)).toMatchObject([{ id }]);
  });

  test('the most pressing goes first, to each recipient one at a time', async () => {
    const sample = await sampleYard(at.records);
    const text = (address: string, priority: Message['priority']) =>
      sampleMessage(sample, { address, priority });
    const [, pressing, other] = await queue(at.records, sample.yard.id, [
      text('+1', 'low'),
      text('+1', 'highest'),
      text('+2', 'medium'),
    ]);
    expect((await claimAt(at.records, startMs)).map(({ id }) => id)).toEqual([pressing, other]);
    expect(await claimAt(at.records, startMs)).toEqual([]);
  });

  test('the limit keeps the most pressing of all', async () => {
    const sample = await sampleYard(at.records);
    const text = (address: string, priority: Message['priority']) =>
      sampleMessage(sample, { address, priority });
    const [, second] = await queue(at.records, sample.yard.id, [text('+1', 'low'), text('+2', 'high')]);
    const taken = await at.records.messages.claimDue({ ...claimOf(startMs), limit: 1 });
    expect(taken.map(({ id }) => id)).toEqual([second]);
  });

  test('texts of one alarm keep their order, even while the first one waits for its next attempt', async () => {
    const [first, second] = await twoTextsOfOneAlarm(at.records);
    expect(await claimAt(at.records, startMs)).toMatchObject([{ id: first }]);
    await retryAt(at.records, first, startMs + 5 * minuteMs);
    expect(await claimAt(at.records, startMs + minuteMs)).toEqual([]);
    expect(await at.records.messages.nextDueMs()).toBe(startMs + 5 * minuteMs);
    expect(await claimAt(at.records, startMs + 5 * minuteMs)).toMatchObject([{ id: first }]);
    await settle(at.records, first, 'sent', startMs);
    expect(await claimAt(at.records, startMs + 5 * minuteMs)).toMatchObject([{ id: second }]);
  });

  test('a text of another alarm does not wait for a retry', async () => {
    const sample = await sampleYard(at.records);
    const [first = ''] = await queue(at.records, sample.yard.id, [
      sampleMessage(sample, { priority: 'highest' }),
    ]);
    await claimAt(at.records, startMs);
    await retryAt(at.records, first, startMs + 5 * minuteMs);
    const [second] = await queue(at.records, sample.yard.id, [sampleMessage(sample, { priority: 'low' })]);
    expect(await claimAt(at.records, startMs)).toMatchObject([{ id: second }]);
  });

  test('a text of the same alarm that is only scheduled for later holds nothing back', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await at.records.alarms.commit(stepOf({ alarms: [alarm] }));
    const about = { alarmId: alarm.id, occurrence: 1 };
    const [, now] = await queue(at.records, sample.yard.id, [
      sampleMessage(sample, { ...about, notBeforeMs: startMs + minuteMs }),
      sampleMessage(sample, about),
    ]);
    expect(await at.records.messages.nextDueMs()).toBe(startMs);
    expect(await claimAt(at.records, startMs)).toMatchObject([{ id: now }]);
  });

  test('an earlier text that expired unmarked does not hold back the next', async () => {
    const [first, second] = await twoTextsOfOneAlarm(at.records, startMs + minuteMs);
    await claimAt(at.records, startMs);
    await retryAt(at.records, first, startMs + 10 * minuteMs);
    expect(await claimAt(at.records, startMs + minuteMs)).toMatchObject([{ id: second }]);
  });

  test('the notifier is told when to look next', async () => {
    expect(await at.records.messages.nextDueMs()).toBeNull();
    const sample = await sampleYard(at.records);
    const [id = ''] = await queue(at.records, sample.yard.id, [
      sampleMessage(sample, { notBeforeMs: startMs + 7 }),
    ]);
    expect(await at.records.messages.nextDueMs()).toBe(startMs + 7);
    await claimAt(at.records, startMs + 7);
    expect(await at.records.messages.nextDueMs()).toBe(startMs + 7 + minuteMs);
    await settle(at.records, id, 'failed', startMs);
    expect(await at.records.messages.nextDueMs()).toBeNull();
  });

  test('while one text is in flight the next to the same recipient is not due', async () => {
    const sample = await sampleYard(at.records);
    await queue(at.records, sample.yard.id, [sampleMessage(sample), sampleMessage(sample)]);
    await claimAt(at.records, startMs);
    expect(await at.records.messages.nextDueMs()).toBe(startMs + minuteMs);
  });
}

const claimOf = (nowMs: number) => ({ nowMs, limit: 10, leaseMs: minuteMs, claimant: 'one' });
const claimAt = (records: Records, nowMs: number) => records.messages.claimDue(claimOf(nowMs));

async function twoTextsOfOneAlarm(records: Records, firstExpiresMs = startMs + 60 * minuteMs) {
  const sample = await sampleYard(records);
  const alarm = sampleAlarm(sample);
  await records.alarms.commit(stepOf({ alarms: [alarm] }));
  const about = { alarmId: alarm.id, occurrence: 1 };
  const [first = '', second = ''] = await queue(records, sample.yard.id, [
    sampleMessage(sample, { ...about, priority: 'low', expiresMs: firstExpiresMs }),
    sampleMessage(sample, { ...about, priority: 'highest' }),
  ]);
  return [first, second] as const;
}

const retryAt = (records: Records, id: string, atMs: number) => settle(records, id, 'waiting', atMs);

function settle(records: Records, messageId: string, state: 'sent' | 'failed' | 'waiting', atMs: number) {
  return records.messages.finishAttempt(
    { messageId, attempt: 1, startedMs: startMs, finishedMs: startMs, outcome: 'retry', detail: '' },
    { state, nextAttemptMs: atMs, gatewayReference: null },
  );
}
