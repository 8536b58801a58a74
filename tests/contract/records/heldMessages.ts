import { expect, test } from 'vitest';
import type { Message, NewMessage, Records } from '../../../services/records/port.ts';
import {
  minuteMs,
  queue,
  type SampleYard,
  sampleAlarm,
  sampleMessage,
  sampleYard,
  startMs,
  stepOf,
} from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

const claim = (nowMs: number) => ({ nowMs, limit: 10, leaseMs: minuteMs, claimant: 'first' });

export function describeHeldMessages(fresh: FreshDatabase): void {
  const at = useRecords(fresh);
  const stored = async (id: string) => (await at.records.messages.get(id))!;

  async function queued(change: Partial<NewMessage>[]): Promise<[SampleYard, string[]]> {
    const sample = await sampleYard(at.records);
    const messages = change.map((one) => sampleMessage(sample, one));
    return [sample, await queue(at.records, sample.yard.id, messages)];
  }

  test('an attempt that began and was never reported may have gone out: it is told and counted', async () => {
    const [, [id = '']] = await queued([{}]);
    await at.records.messages.claimDue(claim(startMs));
    expect(await at.records.messages.beginAttempt(id, 'first', startMs + 1)).toBe(true);
    const [again] = await at.records.messages.claimDue(claim(startMs + minuteMs));
    expect(again).toMatchObject({ id, attempts: 1, maybeSent: 1 });
    expect(await at.records.messages.attempts(id)).toMatchObject([
      { attempt: 1, startedMs: startMs + 1, outcome: 'retry', maybeSent: true },
    ]);
    expect((await at.records.messages.standing()).maybeTwice).toBe(0);
    await sent(at.records, again!, startMs + minuteMs + 1);
    expect((await at.records.messages.standing()).maybeTwice).toBe(1);
  });

  test('a claim that never came to an attempt leaves no doubt', async () => {
    const [, [id = '']] = await queued([{}]);
    await at.records.messages.claimDue(claim(startMs));
    await at.records.messages.claimDue(claim(startMs + minuteMs));
    expect(await stored(id)).toMatchObject({ state: 'sending', attempts: 0, maybeSent: 0 });
  });

  test('an attempt may begin only for whoever has the message', async () => {
    const [, [id = '']] = await queued([{}]);
    expect(await at.records.messages.beginAttempt(id, 'first', startMs)).toBe(false);
    await at.records.messages.claimDue(claim(startMs));
    expect(await at.records.messages.beginAttempt(id, 'second', startMs)).toBe(false);
    expect(await at.records.messages.beginAttempt(id, 'first', startMs)).toBe(true);
  });

  test('one in doubt that grows too old says so as well', async () => {
    const [, [id = '']] = await queued([{ expiresMs: startMs + 30_000 }]);
    await at.records.messages.claimDue(claim(startMs));
    await at.records.messages.beginAttempt(id, 'first', startMs);
    await at.records.messages.expireDue(startMs + minuteMs);
    expect(await stored(id)).toMatchObject({ state: 'expired', maybeSent: 1 });
  });

  test('a held message is taken again when its time comes, and not before', async () => {
    const [, [id = '']] = await queued([{}]);
    await at.records.messages.claimDue(claim(startMs));
    const held = {
      untilMs: startMs + 600 * minuteMs,
      expiresMs: startMs + 700 * minuteMs,
      heldFor: 'quiet',
    } as const;
    await at.records.messages.hold(id, { claimant: 'second', ...held });
    expect(await stored(id)).toMatchObject({ state: 'sending', heldFor: null });
    await at.records.messages.hold(id, { claimant: 'first', ...held });
    expect(await at.records.messages.nextDueMs()).toBe(held.untilMs);
    expect((await at.records.messages.standing()).oldestWaitingMs).toBe(held.untilMs);
    expect(await at.records.messages.claimDue(claim(held.untilMs - 1))).toEqual([]);
    const [again] = await at.records.messages.claimDue(claim(held.untilMs));
    expect(again).toMatchObject({ id, attempts: 0, heldFor: 'quiet', expiresMs: held.expiresMs });
  });

  test('several become one, once; what another one is sending stays out of it', async () => {
    const [sample, [one = '', two = '', three = '']] = await queued([
      { address: '+1' },
      {},
      { address: '+3' },
    ]);
    await at.records.messages.claimDue({ ...claim(startMs), limit: 1 });
    const together = sampleMessage(sample, { kind: 'several', idempotencyKey: 'together' });
    for (const _twice of [1, 2])
      await at.records.messages.tellTogether([one, two, three], together, 'second', startMs + 1);
    const all = await at.records.messages.list(sample.yard.id, 10);
    expect(all).toHaveLength(4);
    const made = all.find(({ kind }) => kind === 'several')!;
    expect(await stored(one)).toMatchObject({ state: 'sending', toldIn: null });
    for (const id of [two, three])
      expect(await stored(id)).toMatchObject({
        state: 'told-together',
        toldIn: made.id,
        finishedMs: startMs + 1,
      });
  });

  test('what is not needed any more ends, unless it is on its way with somebody else', async () => {
    const [, [one = '', two = '']] = await queued([{ address: '+1' }, { address: '+2' }]);
    await at.records.messages.claimDue({ ...claim(startMs), limit: 1 });
    await at.records.messages.dismiss([one, two], { claimant: 'second', atMs: startMs, heldFor: 'over' });
    expect((await stored(one)).state).toBe('sending');
    expect(await stored(two)).toMatchObject({ state: 'not-needed', heldFor: 'over' });
    await at.records.messages.dismiss([one], { claimant: 'first', atMs: startMs, heldFor: 'over' });
    expect((await stored(one)).state).toBe('not-needed');
  });

  test('a text that goes beyond another one ends it while it waits, for that person alone', async () => {
    const sample = await sampleYard(at.records);
    const other = await at.records.people.create({ ...sample.person, login: 'otto' }, null);
    const heading = sampleAlarm(sample, { condition: 'too-hot-heading-there', code: 'A3' });
    const ceiling = sampleAlarm(sample);
    const about = (alarmId: string, change: Partial<NewMessage> = {}) =>
      sampleMessage(sample, { alarmId, ...change });
    await at.records.alarms.commit(stepOf({ alarms: [heading, ceiling] }));
    const [mine = '', theirs = ''] = await queue(at.records, sample.yard.id, [
      about(heading.id),
      about(heading.id, { personId: other.id, address: '+2' }),
    ]);
    await queue(at.records, sample.yard.id, [about(ceiling.id, { overtakes: [heading.id] })]);
    expect(await stored(mine)).toMatchObject({ state: 'not-needed', heldFor: 'overtaken' });
    expect((await stored(theirs)).state).toBe('waiting');
    const about2 = await at.records.messages.aboutAlarms([heading.id]);
    expect(about2.map(({ id }) => id)).toEqual([mine, theirs]);
  });

  test('a report of failure is kept as the last word, unless the message arrived', async () => {
    const [, [id = '']] = await queued([{}]);
    const [claimed] = await at.records.messages.claimDue(claim(startMs));
    await sent(at.records, claimed!, startMs + 1, '77');
    expect(await at.records.messages.markFailed('78', startMs + 2, 'UNDELIV')).toBe(false);
    expect(await at.records.messages.markFailed('77', startMs + 2, 'UNDELIV')).toBe(true);
    expect(await stored(id)).toMatchObject({ state: 'failed', finishedMs: startMs + 2 });
    const [, last] = await at.records.messages.attempts(id);
    expect(last).toMatchObject({ outcome: 'gave-up', detail: expect.stringContaining('UNDELIV') });
  });

  test('what failed lately, and what was tried in vain and still waits, is found; and which keys are known', async () => {
    const [sample, [lost = '', stuck = '', fresh = '']] = await queued([
      { address: '+1' },
      { address: '+2' },
      { address: '+3' },
    ]);
    const claimed = await at.records.messages.claimDue(claim(startMs));
    for (const message of claimed.filter(({ id }) => id === lost))
      await sent(at.records, message, startMs, '77');
    await at.records.messages.markFailed('77', startMs + 5, 'UNDELIV');
    for (const attempt of [1, 2])
      await at.records.messages.finishAttempt(
        {
          messageId: stuck,
          attempt,
          startedMs: startMs,
          finishedMs: startMs,
          outcome: 'retry',
          detail: 'busy',
        },
        { state: 'waiting', nextAttemptMs: startMs + minuteMs, gatewayReference: null },
      );
    const found = async (sinceMs: number, attempts: number) =>
      (await at.records.messages.inTrouble(sample.yard.id, sinceMs, attempts)).map(({ id }) => id);
    expect(await found(startMs, 2)).toEqual([lost, stuck]);
    expect(await found(startMs + 5, 3)).toEqual([]);
    const { idempotencyKey } = await stored(fresh);
    const known = await at.records.messages.knownKeys([idempotencyKey, 'never written']);
    expect([...known]).toEqual([idempotencyKey]);
    expect((await at.records.messages.knownKeys([])).size).toBe(0);
  });

  test('what a person has got and is to get is found by the person', async () => {
    const [sample, [one = '', two = '']] = await queued([{}, {}]);
    const [claimed] = await at.records.messages.claimDue(claim(startMs));
    await sent(at.records, claimed!, startMs + 5);
    const found = async (sinceMs: number) =>
      (await at.records.messages.toPerson(sample.person.id, sinceMs)).map(({ id }) => id);
    expect(await found(startMs + 4)).toEqual([one, two]);
    expect(await found(startMs + 5)).toEqual([two]);
  });
}

async function sent(
  records: Records,
  message: Message,
  atMs: number,
  gatewayReference: string | null = null,
) {
  const attempt = message.attempts + 1;
  await records.messages.finishAttempt(
    { messageId: message.id, attempt, startedMs: atMs, finishedMs: atMs, outcome: 'sent', detail: 'taken' },
    { state: 'sent', nextAttemptMs: atMs, gatewayReference },
  );
}
