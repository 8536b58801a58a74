import { expect, test } from 'vitest';
import type { MessageState, Records } from '../../../services/records/port.ts';
import { minuteMs, queue, sampleMessage, sampleYard, startMs } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeMessages(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('a new message waits, with nothing tried', async () => {
    const sample = await sampleYard(at.records);
    const message = sampleMessage(sample, { notBeforeMs: startMs + 5 });
    const [id = ''] = await queue(at.records, sample.yard.id, [message]);
    const { answerLink: _, ...own } = message;
    const untouched = { kind: 'alarm', maybeSent: 0, heldFor: null, toldIn: null, firstAction: null };
    expect(await at.records.messages.get(id)).toEqual({
      ...own,
      ...untouched,
      id,
      state: 'waiting',
      attempts: 0,
      nextAttemptMs: startMs + 5,
      gatewayReference: null,
      finishedMs: null,
    });
    expect(await at.records.messages.get('none')).toBeNull();
  });

  test('each attempt is kept and moves the message', async () => {
    const [id] = await claimOne(at.records);
    await finish(at.records, id, 'waiting', { attempt: 1, nextAttemptMs: startMs + minuteMs });
    expect(await at.records.messages.get(id)).toMatchObject({
      state: 'waiting',
      attempts: 1,
      finishedMs: null,
    });
    await at.records.messages.claimDue(claim(startMs + minuteMs));
    await finish(at.records, id, 'sent', { attempt: 2 });
    expect(await at.records.messages.get(id)).toMatchObject({
      state: 'sent',
      attempts: 2,
      finishedMs: startMs + 2,
    });
    const attempts = await at.records.messages.attempts(id);
    expect(attempts.map(({ attempt, outcome }) => [attempt, outcome])).toEqual([
      [1, 'retry'],
      [2, 'sent'],
    ]);
    const { yardId, channel } = (await at.records.messages.get(id!))!;
    expect(await at.records.messages.lastAttempts(yardId, channel)).toMatchObject({
      sent: { messageId: id, attempt: 2, outcome: 'sent', maybeSent: false },
      failed: { messageId: id, attempt: 1, outcome: 'retry' },
    });
    const none = { sent: null, failed: null };
    expect(await at.records.messages.lastAttempts(yardId, 'email')).toEqual(none);
    expect(await at.records.messages.lastAttempts('another yard', channel)).toEqual(none);
  });

  test('a sent message is not called back by a late report of failure', async () => {
    const [id] = await claimOne(at.records);
    await finish(at.records, id, 'sent', { attempt: 1 });
    await finish(at.records, id, 'waiting', { attempt: 1 });
    expect(await at.records.messages.get(id)).toMatchObject({ state: 'sent' });
    expect(await at.records.messages.attempts(id)).toHaveLength(2);
  });

  test('a claimant whose lease went to another cannot free the message, only say that it went out', async () => {
    const [id] = await claimOne(at.records);
    await at.records.messages.claimDue({ ...claim(startMs + 2 * minuteMs), claimant: 'second' });
    await finish(at.records, id, 'waiting', { attempt: 1, claimant: 'first' });
    expect(await at.records.messages.get(id)).toMatchObject({ state: 'sending' });
    await finish(at.records, id, 'sent', { attempt: 1, claimant: 'first' });
    expect(await at.records.messages.get(id)).toMatchObject({ state: 'sent' });
  });

  test('the outbox says how many stand where, and since when the oldest of them waits', async () => {
    const none = await at.records.messages.standing();
    expect(none.oldestWaitingMs).toBeNull();
    expect(none.counts).toMatchObject({ waiting: 0, sent: 0 });
    const [id] = await claimOne(at.records);
    await finish(at.records, id, 'sent', { attempt: 1 });
    const sample = await sampleYard(at.records, 'second');
    const at5 = sampleMessage(sample, { notBeforeMs: startMs + 5 });
    const at9 = sampleMessage(sample, { notBeforeMs: startMs + 9 });
    await queue(at.records, sample.yard.id, [at5, at9]);
    const { counts, oldestWaitingMs } = await at.records.messages.standing();
    expect(counts).toMatchObject({ waiting: 2, sent: 1, sending: 0, failed: 0 });
    expect(oldestWaitingMs).toBe(startMs + 5);
  });

  test('an attempt at an unknown message is refused', async () => {
    await expect(finish(at.records, 'none', 'sent', { attempt: 1 })).rejects.toMatchObject({
      field: 'messageId',
    });
  });

  test('what waits past its time expires; what is in flight is left to finish', async () => {
    const sample = await sampleYard(at.records);
    const brief = (address: string) => sampleMessage(sample, { address, expiresMs: startMs + minuteMs });
    const [waiting = '', flying = ''] = await queue(at.records, sample.yard.id, [
      { ...brief('+1'), notBeforeMs: startMs + 1 },
      brief('+2'),
    ]);
    await at.records.messages.claimDue({ ...claim(startMs), leaseMs: 5 * minuteMs });
    expect(await at.records.messages.expireDue(startMs + minuteMs - 1)).toBe(0);
    expect(await at.records.messages.expireDue(startMs + minuteMs)).toBe(1);
    expect(await at.records.messages.get(waiting)).toMatchObject({
      state: 'expired',
      finishedMs: startMs + minuteMs,
    });
    expect(await at.records.messages.get(flying)).toMatchObject({ state: 'sending' });
    expect(await at.records.messages.expireDue(startMs + 5 * minuteMs)).toBe(1);
  });

  test('a delivery report finds the latest message with its reference', async () => {
    const [id] = await claimOne(at.records);
    await finish(at.records, id, 'sent', { attempt: 1, gatewayReference: '77' });
    expect(await at.records.messages.markDelivered('78', startMs + 9)).toBe(false);
    expect(await at.records.messages.markDelivered('77', startMs + 9)).toBe(true);
    expect(await at.records.messages.markDelivered('77', startMs + 99)).toBe(true);
    expect(await at.records.messages.get(id)).toMatchObject({ state: 'delivered', finishedMs: startMs + 9 });
  });

  test('lists are newest first and stop at the limit', async () => {
    const sample = await sampleYard(at.records);
    const ids = await queue(
      at.records,
      sample.yard.id,
      [1, 2, 3].map(() => sampleMessage(sample)),
    );
    const listed = async (found: Promise<{ id: string }[]>) => (await found).map(({ id }) => id);
    expect(await listed(at.records.messages.list(sample.yard.id, 2))).toEqual([ids[2], ids[1]]);
    expect(await listed(at.records.messages.forPile(sample.pile.id, 9))).toEqual(ids.toReversed());
    const between = (toMs: number) => at.records.messages.between(sample.yard.id, startMs, toMs);
    expect(await listed(between(startMs + 1))).toEqual(ids);
    expect(await between(startMs)).toEqual([]);
  });
}

const claim = (nowMs: number) => ({ nowMs, limit: 10, leaseMs: minuteMs, claimant: 'first' });

/** A message just taken by `first`. */
async function claimOne(records: Records): Promise<[string]> {
  const sample = await sampleYard(records);
  await queue(records, sample.yard.id, [sampleMessage(sample)]);
  const [message] = await records.messages.claimDue(claim(startMs));
  return [message?.id ?? 'nothing was claimed'];
}

interface Finish {
  readonly attempt: number;
  readonly nextAttemptMs?: number;
  readonly gatewayReference?: string;
  readonly claimant?: string;
}

async function finish(records: Records, messageId: string, state: MessageState, rest: Finish): Promise<void> {
  const outcome = state === 'sent' ? 'sent' : 'retry';
  const { attempt, nextAttemptMs = startMs, gatewayReference = null, ...claimant } = rest;
  await records.messages.finishAttempt(
    {
      messageId,
      attempt,
      startedMs: startMs + 1,
      finishedMs: startMs + 2,
      outcome,
      detail: 'gateway said so',
    },
    { state, nextAttemptMs, gatewayReference, ...claimant },
  );
}
