import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';

let web: TestWeb;
let nudged = 0;
beforeEach(async () => {
  nudged = 0;
  web = await openTestWeb({}, { notify: { nudge: () => (nudged += 1) } });
});
afterEach(() => web.close());

describe('quarantine', () => {
  const show = async (payload: Uint8Array, payloadBytes = payload.length, topic = 'tilth/y/p/readings') => {
    const item = { receivedMs: testNowMs, probe: null, reason: 'no SenML', topic, payloadBytes };
    await web.records.quarantine.add({ ...item, payloadStart: payload });
    return (await web.call('keeper', 'GET', '/api/quarantine')).json();
  };

  it('shows readable text as text, with every byte also in hexadecimal', async () => {
    const { total, items } = await show(Buffer.from('[{"n":"t"]'));
    expect(total).toBe(1);
    expect(items[0]).toMatchObject({ payloadText: '[{"n":"t"]', payloadHex: '5b7b226e223a2274225d' });
  });

  it('shows bytes that are no text in hexadecimal only', async () => {
    const { items } = await show(Uint8Array.of(0x81, 0xa2, 0xff, 0x00));
    expect(items[0]).toMatchObject({ payloadText: null, payloadHex: '81a2ff00' });
  });

  it('does not call a text unreadable that was cut within a character', async () => {
    const start = Buffer.from('18 \u00b0C').subarray(0, 4);
    expect((await show(start, 9)).items[0].payloadText).toBe('18 ');
  });

  it('makes characters visible that would hide or turn what is shown', async () => {
    const { items } = await show(
      Buffer.from('a long enough text \u202egnp.exe'),
      undefined,
      'tilth/\u202e/x',
    );
    expect(items[0].payloadText).toContain('\\u{202e}gnp');
    expect(items[0].topic).toBe('tilth/\\u{202e}/x');
  });
});

describe('a test text', () => {
  const send = (personId: string) => web.call('keeper', 'POST', '/api/messages/test', { personId });

  it('goes into the outbox for that person, wakes notify and is listed with its number half hidden', async () => {
    expect((await send(web.people.viewer.id)).json()).toEqual({ done: true });
    expect(nudged).toBe(1);
    const [message] = (await web.call('keeper', 'GET', '/api/messages')).json();
    expect(message).toMatchObject({
      person: 'Some viewer',
      address: '+44...123',
      state: 'waiting',
      channel: 'sms-http',
    });
    expect(message.text).toBe('Test Yard: test text for Some viewer. It works, nothing to do.');
    const [stored] = await web.records.messages.list(web.yard.id, 1);
    expect(stored!.address).toBe('+441632960123');
  });

  it('is refused for somebody without a number or not of this yard', async () => {
    await web.records.people.update(web.people.viewer.id, { phone: null, receivesTexts: false });
    expect((await send(web.people.viewer.id)).json().errors[0].pointer).toBe('#/personId');
    expect((await send('nobody')).statusCode).toBe(404);
  });

  it('cannot be used to flood a phone', async () => {
    const codes = [];
    for (let i = 0; i < 8; i += 1) codes.push((await send(web.people.viewer.id)).statusCode);
    expect(codes.filter((code) => code === 200)).toHaveLength(5);
    expect(codes.at(-1)).toBe(429);
  });
});

describe('messages', () => {
  it('do not show the secret in an answer link to whoever may look', async () => {
    const stored = { yardId: web.yard.id, pileId: null, alarmId: null, occurrence: null, answerLink: null };
    const times = { createdMs: testNowMs, notBeforeMs: testNowMs, expiresMs: testNowMs + 1 };
    const to = { personId: web.people.owner.id, channel: 'sms-http', address: '+441632960123' } as const;
    const text = 'Heap 4 hot http://yard.example/a/q3Jx0Zk1LmNoPqRs';
    const message = { ...stored, ...times, ...to, text, priority: 'high', idempotencyKey: 'k' } as const;
    const none = { alarms: [], transitions: [], statuses: [], marks: [] };
    await web.records.alarms.commit({ ...none, messages: [message] });
    const response = await web.call('keeper', 'GET', '/api/messages');
    expect(response.json()[0].text).toBe('Heap 4 hot http://yard.example/a/...');
  });
});
