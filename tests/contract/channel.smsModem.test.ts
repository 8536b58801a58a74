import { pino } from 'pino';
import { createSmsModem } from '../../services/notify/modem/createSmsModem.ts';
import { modemSchema } from '../../services/notify/port.ts';
import type { Arrived, ChannelRig } from '../helpers/channelRig.ts';
import { hasSocat, type ModemWire, memoryWire, tcpWire, terminalWire } from '../helpers/modemLines.ts';
import { describeIf } from '../helpers/requirement.ts';
import { createStandInModem, type SentText, type StandInModem } from '../helpers/standInModem.ts';
import { describeChannelContract } from './channelContract.ts';

const chatter = ['^RSSI:17', '+CREG: 1', 'RING', '%NOTIFY: 3'];

async function openModem(
  mode: 'pdu' | 'text',
  wireTo: (modem: StandInModem) => Promise<ModemWire>,
): Promise<ChannelRig> {
  const modem = createStandInModem();
  Object.assign(modem.temper, { chatter, promptMs: 30, pin: '9753' });
  const wire = await wireTo(modem);
  modem.temper.breakLine = wire.breakLine;
  const settings = modemSchema.parse({
    ...{ port: '/dev/ttyUSB0', mode, pin: '9753', longestParts: 10 },
    ...{ answerSeconds: 2, promptSeconds: 1, sendSeconds: 1 },
  });
  const sink = { onText: async () => {}, onReport: async () => {} };
  return {
    channel: createSmsModem({
      ...{ settings, sink, open: wire.open, nowMs: Date.now, logger: pino({ level: 'silent' }) },
    }),
    address: '+441632960123',
    badAddress: '0163 anyone',
    secrets: ['9753'],
    ...{ checkReaches: true, carriesKey: false },
    arrived: () => {
      if (modem.tooSoon.length > 0) throw new Error(`not waited for the answer before ${modem.tooSoon}`);
      return mode === 'pdu' ? joined(modem.sent) : readInTurn(modem.sent);
    },
    setMood: (mood) => {
      if (modem.temper.mood === 'silent') modem.restart();
      modem.temper.mood = mood;
    },
    ...{ goAway: wire.goAway, comeBack: wire.comeBack, close: wire.close },
  };
}

/** As a phone shows it: the parts of one text joined by their numbers. */
function joined(sent: readonly SentText[]): Arrived[] {
  const texts = new Map<string, SentText[]>();
  for (const [index, text] of sent.entries()) {
    const key = text.part === null ? `alone ${index}` : `${text.to} ${text.part.reference}`;
    texts.set(key, [...(texts.get(key) ?? []), text]);
  }
  return [...texts.values()].map((parts) => ({
    ...{ to: parts[0]!.to, key: null },
    text: parts
      .toSorted((one, other) => (one.part?.number ?? 0) - (other.part?.number ?? 0))
      .map(({ text }) => text)
      .join(''),
  }));
}

/** As a person reads it: "1/3 ...", "2/3 ...", "3/3 ..." one after the other. */
function readInTurn(sent: readonly SentText[]): Arrived[] {
  const texts: Arrived[] = [];
  for (const { to, text } of sent) {
    const number = /^(\d+)\/\d+ /.exec(text);
    if (number === null || number[1] === '1') texts.push({ to, key: null, text: '' });
    const last = texts.pop()!;
    texts.push({ ...last, text: last.text + text.slice(number?.[0].length ?? 0) });
  }
  return texts;
}

describeChannelContract('GSM modem, PDU mode', () => openModem('pdu', memoryWire));
describeChannelContract('GSM modem, text mode', () => openModem('text', memoryWire));
describeChannelContract('GSM modem behind a serial server', () => openModem('pdu', tcpWire));

describeIf(hasSocat, 'socat is not installed')('on a pseudo-terminal', () => {
  describeChannelContract('GSM modem on a serial port', () => openModem('pdu', terminalWire));
});
