import { describe, expect, test } from 'vitest';
import { submitPdus } from '../../../shared/messages/pdu.ts';
import { deliverPdu, readSubmit, statusReportPdu } from '../../../tests/helpers/modemPdus.ts';
import { readInboundPdu } from './inboundPdu.ts';
import { validityOf } from './validity.ts';

const takenMs = Date.UTC(2026, 10, 25, 9, 30);

describe('what comes in as a PDU', () => {
  test('a widely published one is read (a common example of TS 23.040, from memory)', () => {
    const published = '07917283010010F5040BC87238880900F10000993092516195800AE8329BFD4697D9EC37';
    expect(readInboundPdu(published)).toMatchObject({
      kind: 'text',
      from: '27838890001',
      text: 'hellohello',
    });
  });

  test.each([
    ['a short one', 'SEEN 7'],
    ['every septet boundary', 'a'.repeat(159)],
    ['the extension table', 'cost {5€} [A\\B]'],
    ['UCS-2', 'Видел 7 🔥'],
    ['nothing', ''],
  ])('%s comes out as it went in, with its time', (_what, text) => {
    const from = '+441632960123';
    expect(readInboundPdu(deliverPdu({ from, text }))).toEqual({
      kind: 'text',
      from,
      text,
      takenMs,
      part: null,
    });
  });

  test.each(['abc', 'Ж'])('a part of "%s..." knows which it is', (start) => {
    const part = { reference: 200, count: 3, number: 2 };
    const text = start.repeat(20);
    expect(readInboundPdu(deliverPdu({ from: '+441632960123', text, part }))).toMatchObject({ text, part });
  });

  test.each(['12345', '0123456', 'Gannet Row'])('a sender like %s is kept as it is', (from) => {
    expect(readInboundPdu(deliverPdu({ from, text: 'x' }))).toMatchObject({ from });
  });

  test('a report names its text and how it stands', () => {
    const pdu = statusReportPdu(253, '+441632960123', 0x46);
    expect(readInboundPdu(pdu)).toEqual({ kind: 'report', messageReference: 253, status: 0x46 });
  });

  test.each([
    '',
    'xyz',
    '00',
    '0791',
    deliverPdu({ from: '+441632960123', text: 'cut off here' }).slice(0, -8),
  ])('"%s" is nothing that can be read', (hex) => expect(readInboundPdu(hex)).toBeNull());

  test('octets that are no text are not shown as one', () => {
    const binary = deliverPdu({ from: '+441632960123', text: 'x' });
    const scheme = binary.indexOf('62115201030040') - 2;
    expect(readInboundPdu(`${binary.slice(0, scheme)}04${binary.slice(scheme + 2)}`)).toBeNull();
  });
});

describe('what goes out as a PDU', () => {
  test('a report is asked for only when wanted', () => {
    const asked = (wantsReport: boolean) =>
      readSubmit(submitPdus('+441632960123', 'x', { wantsReport })[0]!.hex);
    expect([asked(true).wantsReport, asked(false).wantsReport]).toEqual([true, false]);
  });

  test.each([
    [1, 0],
    [5, 0],
    [10, 1],
    [12 * 60, 143],
    [12 * 60 + 30, 144],
    [24 * 60, 167],
    [47 * 60, 167],
    [48 * 60, 168],
    [4 * 24 * 60, 170],
    [90 * 24 * 60, 196],
  ])('good for %i minutes is validity %i', (minutes, validity) => {
    expect(validityOf(minutes * 60_000)).toBe(validity);
  });
});
