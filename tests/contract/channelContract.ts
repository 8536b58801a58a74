import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { MessageChannel, SendOutcome } from '../../services/notify/messageChannel.ts';
import { testMessage } from '../../services/notify/testMessage.ts';
import type { ChannelRig, Mood } from '../helpers/channelRig.ts';
import { eventually } from '../helpers/eventually.ts';

const awkward = 'Bay 3 "core" 72.4 C, limit 71.0\nnext: {{to}} & water @ 50% <£5> \\ [A1]';

/** What every way to reach a person must do, whatever it runs over. */
export function describeChannelContract(name: string, open: () => Promise<ChannelRig>): void {
  describe(`a message channel: ${name}`, () => {
    let rig: ChannelRig;
    beforeEach(async () => {
      rig = await open();
    });
    afterEach(async () => {
      await rig.channel.stop();
      await rig.close();
    });

    const message = (text: string, address = rig.address, id: string = randomUUID()) => ({
      ...testMessage(rig.channel.kind, address, id, Date.now()),
      text,
    });
    const send = (text: string, address?: string, id?: string) =>
      rig.channel.send(message(text, address, id));
    const texts = () => rig.arrived().map(({ text }) => text);
    const inMood = async (mood: Mood, text = 'hello') => {
      rig.setMood(mood);
      const outcome = await send(text);
      rig.setMood('well');
      return outcome;
    };

    arriving(() => ({ rig, send, texts }));

    test('trouble on the other side is worth another try, which arrives once', async () => {
      expect(await inMood('busy', 'later')).toMatchObject({ kind: 'retry' });
      expect(texts()).toEqual([]);
      expect(await send('later')).toMatchObject({ kind: 'sent' });
      expect(texts()).toEqual(['later']);
    });

    test('a refused recipient is given up, and says nothing against the next one', async () => {
      expect(await inMood('refuses-recipient')).toMatchObject({ kind: 'gave-up' });
      expect(await send('next')).toMatchObject({ kind: 'sent' });
    });

    test('an address that is none is given up without a word to anybody', async () => {
      expect(await send('hello', rig.badAddress)).toMatchObject({ kind: 'gave-up' });
      expect(texts()).toEqual([]);
    });

    test('what only the owner can put right is said so, and the message is kept for then', async () => {
      expect(await inMood('refuses-account')).toMatchObject({ kind: 'retry', tellOwner: true });
      expect(await send('put right')).toMatchObject({ kind: 'sent' });
    });

    test('silence ends by itself, may have been a yes, and leaves a channel that works', async () => {
      expect(await inMood('silent')).toMatchObject({ kind: 'retry', maybeSent: true });
      await sendsAgain(rig.channel, () => send('after the silence'));
    });

    test('a line that breaks off in the middle leaves a channel that works', async () => {
      expect(await inMood('breaks-off')).toMatchObject({ kind: 'retry' });
      await sendsAgain(rig.channel, () => send('after the break'));
    });

    test('an other side that is gone is tried again, and found when it is back', async () => {
      await rig.goAway();
      expect(await send('nobody there')).toMatchObject({ kind: 'retry' });
      await rig.comeBack();
      await sendsAgain(rig.channel, () => send('back again'));
      expect(texts()).toEqual(['back again']);
    });

    test('the start-up check sends nothing and tells ready from gone', async () => {
      expect(await rig.channel.check()).toMatchObject({ ready: true });
      expect(texts()).toEqual([]);
      if (!rig.checkReaches) return;
      await rig.goAway();
      expect(await rig.channel.check()).toMatchObject({ ready: false, detail: expect.stringMatching(/\w/) });
      await rig.comeBack();
    });

    test('no detail holds a secret or an address', async () => {
      const moods: Mood[] = ['well', 'busy', 'refuses-recipient', 'refuses-account', 'breaks-off'];
      const details: string[] = [];
      for (const mood of moods) details.push((await inMood(mood)).detail);
      details.push((await send('hello', rig.badAddress)).detail, (await rig.channel.check()).detail);
      for (const secret of [...rig.secrets, rig.address]) expect(details.join('\n')).not.toContain(secret);
    });

    test('after the stop nothing is sent, and the message is kept', async () => {
      await send('before');
      await rig.channel.stop();
      expect(await send('after')).toMatchObject({ kind: 'retry' });
      expect(texts()).toEqual(['before']);
    });
  });
}

interface Arriving {
  readonly rig: ChannelRig;
  readonly send: (text: string, address?: string, id?: string) => Promise<SendOutcome>;
  readonly texts: () => string[];
}

function arriving(given: () => Arriving): void {
  test.each([
    ['awkward characters', awkward],
    ['letters outside the GSM alphabet', 'Käfig 3: 68,5 °C – “Öffnen” жар 🔥'],
    ['a long text', `${'0123456789 abcdefghijklm '.repeat(18)}the end`],
    ['a long text outside the GSM alphabet', `${'Жарко в яме №3. '.repeat(14)}конец`],
  ])('%s arrive as written, once', async (_what, text) => {
    const { rig, send, texts } = given();
    expect(await send(text)).toMatchObject({ kind: 'sent', detail: expect.stringMatching(/\w/) });
    expect(texts()).toEqual([text]);
    expect(rig.arrived()[0]!.to).toBe(rig.address);
  });

  test('several at once all arrive, each once', async () => {
    const { send, texts } = given();
    const sent = ['one', 'two', 'three', 'four', 'five'];
    const outcomes = await Promise.all(sent.map((text) => send(text)));
    expect(outcomes.map(({ kind }) => kind)).toEqual(sent.map(() => 'sent'));
    expect(texts().toSorted()).toEqual(sent.toSorted());
  });

  test('a repeated attempt carries the same key, another message another one', async () => {
    const { rig, send } = given();
    for (const id of ['same', 'same', 'other']) await send('again', rig.address, id);
    const [first, second, third] = rig.arrived().map(({ key }) => key);
    if (!rig.carriesKey) expect([first, second, third]).toEqual([null, null, null]);
    else {
      expect(first).toMatch(/\w/);
      expect([second, third === first]).toEqual([first, false]);
    }
  });
}

/** Waiting for the other side to be found again takes a channel a few attempts at most, as the outbox would make them. */
async function sendsAgain(channel: MessageChannel, send: () => Promise<SendOutcome>): Promise<void> {
  let outcome: SendOutcome | null = null;
  await eventually(`${channel.kind} sends again`, async () => {
    outcome = await send();
    return outcome.kind === 'sent';
  });
  expect(outcome).toMatchObject({ kind: 'sent' });
}
