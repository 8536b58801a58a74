import { encode } from 'cborg';
import { describe, expect, test } from 'vitest';
import { decodeSenml, SenmlError } from './decodeSenml.ts';
import { fromHex } from './hex.ts';
import { utf8FromText } from './textBytes.ts';

const nowMs = 1_700_000_000_000;
const json = (text: string, options = {}) => decodeSenml(utf8FromText(text), { nowMs, ...options });
const cbor = (hex: string) => decodeSenml(fromHex(hex)!, { nowMs });

/** The error a decoding is refused with; fails when it is accepted. */
function refusal(decode: () => unknown): SenmlError {
  try {
    decode();
  } catch (error) {
    expect(error).toBeInstanceOf(SenmlError);
    return error as SenmlError;
  }
  throw new Error('accepted');
}

describe('JSON', () => {
  test('a lone record takes the time of arrival (RFC 8428 5.1.1)', () => {
    expect(json('[{"n":"urn:dev:ow:10e2073a01080063","u":"Cel","v":23.1}]')).toEqual([
      {
        name: 'urn:dev:ow:10e2073a01080063',
        unit: 'Cel',
        kind: 'number',
        value: 23.1,
        timeMs: nowMs,
        timeSeconds: nowMs / 1000,
        version: 10,
      },
    ]);
  });

  test('base name and name are joined without a separator (RFC 8428 5.1.2)', () => {
    const pack =
      '[{"bn":"urn:dev:ow:10e2073a01080063:","n":"voltage","u":"V","v":120.1},{"n":"current","u":"A","v":1.2}]';
    expect(json(pack).map(({ name }) => name)).toEqual([
      'urn:dev:ow:10e2073a01080063:voltage',
      'urn:dev:ow:10e2073a01080063:current',
    ]);
  });

  test('a member name given twice is refused with record and field', () => {
    const error = refusal(() => json('[{"n":"a","v":1},{"n":"b","v":60,"v":75}]'));
    expect(error).toMatchObject({ code: 'duplicate-label', recordIndex: 1, field: 'v' });
  });

  test('a colon inside a text is no second member', () => {
    expect(json('[{"n":"a:b","vs":"x\\":\\"y"}]')[0]!.value).toBe('x":"y');
  });

  test.each([
    ['[{"n":"a","v":NaN}]', 'malformed-json'],
    ['[{"n":"a","v":1e999}]', 'not-finite'],
    ['[{"n":"a","v":"60"}]', 'wrong-type'],
    ['[{"n":"a","v":null}]', 'wrong-type'],
    ['[{"n":"a","vd":"a+b="}]', 'wrong-type'],
    ['[{"n":"a","v":1,"ut":-1}]', 'wrong-type'],
    ['[1]', 'not-a-record'],
    ['{"n":"a","v":1}', 'not-senml'],
    ['[{"n":"a"}]', 'no-value'],
    ['[{"n":"a","v":1,"t":1e300}]', 'time'],
  ])('%s is refused as %s', (pack, code) => {
    expect(refusal(() => json(pack)).code).toBe(code);
  });

  test('bytes that are not UTF-8 are refused, not mended', () => {
    const payload = Uint8Array.of(...utf8FromText('[{"n":"a","vs":"'), 0xff, ...utf8FromText('"}]'));
    expect(refusal(() => decodeSenml(payload, { nowMs })).code).toBe('not-utf8');
  });
});

describe('CBOR', () => {
  test('array and maps of indefinite length, half float, 64-bit float', () => {
    expect(
      cbor('9fbf006161 02f93e00ffbf00616202fb404b800000000000ffff'.replace(' ', '')).map((r) => r.value),
    ).toEqual([1.5, 55]);
  });

  test('a decimal fraction is the double its decimal notation gives', () => {
    expect(cbor('81a20061 6102c48221196ab3'.replace(' ', ''))[0]!.value).toBe(273.15);
  });

  test('text keys of plain map encoders are read like the integer keys', () => {
    const payload = encode([{ n: 'a', u: 'Cel', v: 61.5 }]);
    expect(decodeSenml(payload, { nowMs })[0]).toMatchObject({ name: 'a', unit: 'Cel', value: 61.5 });
  });

  test.each([
    [
      'a label in both spellings',
      encode([
        new Map<unknown, unknown>([
          [0, 'a'],
          ['n', 'b'],
          [2, 1],
        ]),
      ]),
      'duplicate-label',
    ],
    ['a key twice', fromHex('81a3006161020102 02'.replace(' ', ''))!, 'malformed-cbor'],
    [
      'an integer key outside the table',
      encode([
        new Map([
          [0, 'a'],
          [9, 'b'],
        ]),
      ]),
      'unknown-label',
    ],
    [
      'NaN',
      encode([
        new Map<number, unknown>([
          [0, 'a'],
          [2, Number.NaN],
        ]),
      ]),
      'not-finite',
    ],
    ['text that is not UTF-8', fromHex('81a20061610361ff')!, 'wrong-type'],
    ['a map instead of an array', fromHex('80a0')!, 'malformed-cbor'],
    ['a text of indefinite length', fromHex('81a2007f6161ff0201')!, 'malformed-cbor'],
  ])('%s is refused', (_, payload, code) => {
    expect(refusal(() => decodeSenml(payload, { nowMs })).code).toBe(code);
  });

  test('cut anywhere it is refused with a reason, never read as less', () => {
    const whole = fromHex('82a3006161016343656c02f954d0a200616202fb404b800000000000')!;
    expect(decodeSenml(whole, { nowMs })).toHaveLength(2);
    for (let length = 1; length < whole.length; length++) {
      expect(refusal(() => decodeSenml(whole.subarray(0, length), { nowMs })).code).toBe('malformed-cbor');
    }
  });
});

describe('limits and form', () => {
  test('too many records and too many bytes are told with the limit', () => {
    const pack = `[${Array(4).fill('{"n":"a","v":1}').join()}]`;
    expect(refusal(() => json(pack, { maxRecords: 3 })).message).toContain('at most 3 records');
    expect(refusal(() => json(pack, { maxBytes: 10 })).code).toBe('too-large');
    expect(refusal(() => decodeSenml(new Uint8Array(4_000_000).fill(0x20), { nowMs })).code).toBe(
      'too-large',
    );
  });

  test('brackets nested a million deep do not take the service down', () => {
    const code = (byte: number) => refusal(() => decodeSenml(new Uint8Array(1e6).fill(byte), { nowMs })).code;
    expect([code(0x5b), code(0x81)]).toEqual(['malformed-json', 'nested-too-deep']);
  });

  test('the form is told by the first byte, unless it is given', () => {
    expect(json(' \n[{"n":"a","v":1}]')).toHaveLength(1);
    expect(refusal(() => json('hello')).code).toBe('not-senml');
    expect(refusal(() => json('')).code).toBe('not-senml');
    expect(refusal(() => json('[]', { format: 'cbor' })).code).toBe('malformed-cbor');
  });
});
