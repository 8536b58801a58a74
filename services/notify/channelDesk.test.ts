import { pino } from 'pino';
import { expect, test } from 'vitest';
import type { Message } from '../records/port.ts';
import { openChannelDesk } from './channelDesk.ts';
import type { ChannelCheck, MessageChannel, SendOutcome } from './messageChannel.ts';
import type { ChannelTrouble } from './port.ts';

function open(outcomes: (SendOutcome | Error)[], checks: ChannelCheck[] = []) {
  const sent: Message[] = [];
  const troubles: ChannelTrouble[] = [];
  const channel: MessageChannel = {
    kind: 'email',
    longestSendMs: 5000,
    async send(message) {
      sent.push(message);
      const outcome = outcomes.shift()!;
      if (outcome instanceof Error) throw outcome;
      return outcome;
    },
    check: async () => checks.shift()!,
    stop: async () => {},
  };
  const desk = openChannelDesk({
    ...{ channels: [channel], clock: { nowMs: () => 1000 }, logger: pino({ level: 'silent' }) },
    onTrouble: (trouble) => troubles.push(trouble),
  });
  return { desk, sent, troubles };
}

const taken: SendOutcome = { kind: 'sent', detail: 'took it', reference: null };
const noCredit: SendOutcome = { kind: 'retry', detail: 'no credit', tellOwner: true };

test('the owner is told once for as long as a trouble stays the same, and again when it returns', async () => {
  const { desk, troubles } = open([noCredit, noCredit, taken, noCredit]);
  for (let attempt = 0; attempt < 4; attempt += 1) await desk.test('email', 'ann@example.org');
  expect(troubles).toEqual([
    { channel: 'email', detail: 'no credit', atMs: 1000 },
    { channel: 'email', detail: 'no credit', atMs: 1000 },
  ]);
});

test('one refused message says nothing of the channel, a passing trouble neither', async () => {
  const { desk, troubles } = open([
    taken,
    { kind: 'gave-up', detail: 'refuses this address' },
    { kind: 'retry', detail: 'busy' },
  ]);
  for (let attempt = 0; attempt < 3; attempt += 1) await desk.test('email', 'ann@example.org');
  expect(desk.standings()).toMatchObject([{ channel: 'email', ready: true, detail: 'took it' }]);
  expect(troubles).toEqual([]);
});

test('the test button sends something that says it is a test, under a key of its own', async () => {
  const { desk, sent } = open([taken, taken]);
  expect(await desk.test('email', 'ann@example.org')).toEqual(taken);
  await desk.test('email', 'ann@example.org');
  expect(sent[0]).toMatchObject({
    address: 'ann@example.org',
    text: expect.stringContaining('this is a test'),
  });
  expect(sent[0]!.idempotencyKey).not.toBe(sent[1]!.idempotencyKey);
});

test('a check is remembered, a channel that is not set up is told apart', async () => {
  const { desk, troubles } = open([], [{ ready: false, detail: 'wrong password', tellOwner: true }]);
  expect(desk.standings()).toEqual([]);
  expect(await desk.check('email')).toMatchObject({
    ready: false,
    detail: 'wrong password',
    tellOwner: true,
  });
  expect(desk.standings()).toHaveLength(1);
  expect(troubles).toHaveLength(1);
  expect(await desk.check('sms-modem')).toBeNull();
  expect(await desk.test('sms-modem', '+441632960123')).toMatchObject({ kind: 'gave-up' });
});

test('a channel that breaks off unexpectedly loses no message', async () => {
  const { desk } = open([new Error('a fault of ours')]);
  expect(await desk.test('email', 'ann@example.org')).toMatchObject({ kind: 'retry', maybeSent: true });
});
