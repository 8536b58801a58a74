import { pino } from 'pino';
import { afterEach, describe, expect, test } from 'vitest';
import { eventually } from '../../../tests/helpers/eventually.ts';
import { memoryWire } from '../../../tests/helpers/modemLines.ts';
import { createStandInModem, type ModemTemper } from '../../../tests/helpers/standInModem.ts';
import type { DeliveryReport, InboundText, MessageChannel } from '../messageChannel.ts';
import { testMessage } from '../testMessage.ts';
import { createSmsModem } from './createSmsModem.ts';
import { modemSchema } from './settings.ts';

const number = '+441632960123';
let channel: MessageChannel;
afterEach(() => channel.stop());

async function open(
  temper: Partial<ModemTemper> = {},
  settings: object = {},
  fails: () => boolean = () => false,
) {
  const modem = createStandInModem();
  Object.assign(modem.temper, temper);
  const wire = await memoryWire(modem);
  const texts: InboundText[] = [];
  const reports: DeliveryReport[] = [];
  channel = createSmsModem({
    settings: modemSchema.parse({
      ...{
        port: '/dev/ttyUSB0',
        answerSeconds: 1,
        promptSeconds: 1,
        sendSeconds: 1,
        pollSeconds: 0.1,
        ...settings,
      },
    }),
    sink: {
      async onText(text) {
        if (fails()) throw new Error('not stored');
        texts.push(text);
      },
      async onReport(report) {
        reports.push(report);
      },
    },
    open: wire.open,
    nowMs: Date.now,
    logger: pino({ level: 'silent' }),
  });
  return { modem, wire, texts, reports };
}

const send = (text: string, id = 'm1') =>
  channel.send({ ...testMessage('sms-modem', number, id, Date.now()), text });

describe.each(['pdu', 'text'] as const)('what comes in by the modem, %s mode', (mode) => {
  test('a text is announced, passed on, and only then deleted', async () => {
    const { modem, texts } = await open({}, { mode });
    await channel.check();
    modem.receive({ from: number, text: 'Seen 7, £5 {ok}' });
    await eventually('the text is there', () => texts.length === 1);
    expect(texts[0]).toMatchObject({ from: number, text: 'Seen 7, £5 {ok}' });
    await eventually('it is deleted', () => modem.held.size === 0);
  });

  test('what could not be taken stays in the modem and is tried again, under the same reference', async () => {
    let isBroken = true;
    const { modem, texts } = await open({}, { mode }, () => isBroken);
    await channel.check();
    modem.receive({ from: number, text: 'stop 2' });
    await eventually('it was read', () => modem.commands.includes('AT+CMGR=1'));
    expect(modem.held.size).toBe(1);
    isBroken = false;
    await eventually('it is taken after all', () => texts.length === 1 && modem.held.size === 0);
    expect(texts[0]!.reference).toMatch(/^modem \S+/);
  });

  test('what came while nobody listened is found', async () => {
    const { modem, texts, wire } = await open({ unknown: ['AT+CNMI'] }, { mode });
    await channel.check();
    modem.receive({ from: '12345', text: 'Жар' });
    await eventually('the text is there', () => texts.length === 1);
    expect(texts[0]).toMatchObject({ from: '12345', text: 'Жар' });
    await wire.goAway();
  });

  test('a report tells that a text reached its phone', async () => {
    const { modem, reports } = await open({}, { mode });
    const sent = await send('hello');
    expect(modem.sent[0]!.wantsReport).toBe(true);
    modem.report(modem.sent[0]!.messageReference, number, 0);
    await eventually('the report is there', () => reports.length === 1);
    expect(reports[0]).toMatchObject({
      state: 'delivered',
      reference: sent.kind === 'sent' && sent.reference,
    });
  });
});

describe('long texts by the modem', () => {
  test('parts that come in out of order are joined, and kept in the modem until then', async () => {
    const { modem, texts } = await open();
    await channel.check();
    const part = (number: number) => ({ reference: 9, count: 3, number });
    modem.receive({ from: number, text: 'three', part: part(3) });
    modem.receive({ from: number, text: 'one ', part: part(1) });
    await eventually('two were read', () => modem.commands.includes('AT+CMGR=2'));
    expect([modem.held.size, texts.length]).toEqual([2, 0]);
    modem.receive({ from: number, text: 'two ', part: part(2) });
    await eventually('all is there', () => texts.length === 1 && modem.held.size === 0);
    expect(texts[0]!.text).toBe('one two three');
  });

  test('an attempt after trouble goes on with the parts that are not out yet', async () => {
    const { modem } = await open({ partsUntilTrouble: 2 });
    const text = 'x'.repeat(500);
    expect(await send(text)).toMatchObject({ kind: 'retry', detail: expect.stringContaining('38') });
    modem.temper.partsUntilTrouble = null;
    expect(await send(text)).toMatchObject({ kind: 'sent' });
    expect(modem.sent.map(({ part }) => part!.number)).toEqual([1, 2, 3, 4]);
    expect(new Set(modem.sent.map(({ part }) => part!.reference)).size).toBe(1);
  });

  test('a text of several parts is delivered when the last part is, and failed when one is', async () => {
    const { modem, reports } = await open();
    const report = async (at: number, status: number) => {
      const before = modem.commands.length;
      modem.report(modem.sent[at]!.messageReference, number, status);
      await eventually('the modem was asked since', () => modem.commands.length > before);
    };
    await send('x'.repeat(300), 'm1');
    await report(1, 0);
    expect(reports).toEqual([]);
    await report(0, 0);
    expect(reports.map(({ state }) => state)).toEqual(['delivered']);
    await send('y'.repeat(300), 'm2');
    await report(2, 0x30);
    await report(3, 0x46);
    expect(reports.map(({ state }) => state)).toEqual(['delivered', 'failed']);
  });

  test('a text far too long is cut at the parts allowed', async () => {
    const { modem } = await open({}, { longestParts: 2 });
    await send('x'.repeat(2000));
    expect(modem.sent).toHaveLength(2);
  });
});

describe('the SIM card and the network', () => {
  test('a PIN is entered; a refused one is not tried again, which would lock the card', async () => {
    const good = await open({ pin: '9753' }, { pin: '9753' });
    expect(await send('hello')).toMatchObject({ kind: 'sent' });
    expect(good.modem.pinTries).toEqual(['9753']);
    await channel.stop();
    const bad = await open({ pin: '1111' }, { pin: '9753' });
    for (let attempt = 0; attempt < 4; attempt += 1)
      expect(await send('hello')).toMatchObject({ kind: 'retry', tellOwner: true });
    expect(bad.modem.pinTries).toEqual(['9753']);
  });

  test('looking for a network is waited out, a refusal by it is for the owner', async () => {
    const { modem } = await open({ registration: 2 });
    const looking = await send('hello');
    expect(looking).toMatchObject({ kind: 'retry', detail: expect.stringContaining('no network') });
    expect(looking).not.toHaveProperty('tellOwner');
    modem.temper.registration = 3;
    expect(await send('hello')).toMatchObject({ kind: 'retry', tellOwner: true });
    modem.temper.registration = 5;
    expect(await send('hello')).toMatchObject({ kind: 'sent' });
  });

  test('the check tells the signal, and misses the service centre', async () => {
    const { modem } = await open();
    expect(await channel.check()).toEqual({ ready: true, detail: 'modem is on the network, signal -85 dBm' });
    modem.temper.hasServiceCentre = false;
    expect(await channel.check()).toMatchObject({ ready: false, tellOwner: true });
  });

  test('a modem that does not know the mode is for the owner, who is told what to set', async () => {
    await open({ unknown: ['AT+CMGF=0'] });
    expect(await send('hello')).toMatchObject({
      tellOwner: true,
      detail: expect.stringContaining('modem.mode'),
    });
  });

  test('a text is not kept by the network for longer than it is good for', async () => {
    const { modem } = await open();
    await send('hello');
    // A test message is good for a little less than ten minutes now: one step of five, which is written 0.
    expect(modem.sent[0]).toMatchObject({ validity: 0 });
  });

  test('a slow prompt and a slow network are waited for', async () => {
    const { modem } = await open({ promptMs: 800 }, { promptSeconds: 5 });
    expect(await send('hello')).toMatchObject({ kind: 'sent' });
    expect(modem.tooSoon).toEqual([]);
  });

  test('a prompt slower than allowed is tried again, and nothing went out', async () => {
    const { modem } = await open({ promptMs: 1500 });
    const outcome = await send('hello');
    expect(outcome).toMatchObject({ kind: 'retry', detail: 'modem did not ask for the text' });
    expect(outcome).not.toHaveProperty('maybeSent');
    modem.temper.promptMs = 5;
    expect(await send('hello')).toMatchObject({ kind: 'sent' });
    expect(modem.sent.map(({ text }) => text)).toEqual(['hello']);
  });
});
