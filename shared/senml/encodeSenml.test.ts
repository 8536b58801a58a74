import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeSenml, readSenmlRecords } from './decodeSenml.ts';
import { encodeSenmlCbor, encodeSenmlJson } from './encodeSenml.ts';
import { toHex } from './hex.ts';
import { packFromResolved } from './packFromResolved.ts';
import type { SenmlRecord } from './record.ts';
import type { ResolvedRecord } from './resolvedRecord.ts';

// -0 has no integer form in CBOR and means nothing different here.
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
const text = fc
  .string({ unit: 'binary' })
  .filter((value) => value.isWellFormed() && !value.includes('\uFFFD'));
const bytes = fc.uint8Array().map((array) => Uint8Array.from(array));

const value = fc.oneof(
  fc.record({ v: number }),
  fc.record({ vs: text }),
  fc.record({ vb: fc.boolean() }),
  fc.record({ vd: bytes }),
  fc.record({ s: number }),
);
const base = fc.record(
  { bn: fc.constant('urn:dev:os:32473-1_'), bt: number, bu: fc.constant('Cel'), bv: number, bs: number },
  { requiredKeys: [] },
);
const record: fc.Arbitrary<SenmlRecord> = fc
  .tuple(base, fc.record({ n: fc.constantFrom('core', 'edge'), t: number }, { requiredKeys: [] }), value)
  .map((parts) => Object.assign({}, ...parts));

describe.each([
  ['JSON', encodeSenmlJson],
  ['CBOR', encodeSenmlCbor],
])('%s', (_, encode) => {
  test('any records come back as they were', () => {
    fc.assert(
      fc.property(fc.array(record), (records) => {
        expect(readSenmlRecords(encode(records))).toEqual(records);
      }),
    );
  });

  test('any measurements come back as they were, to the last bit of time and value', () => {
    const measurement = fc
      .tuple(fc.constantFrom('core', 'edge'), fc.double({ min: 1e9, max: 4e9, noNaN: true }), number)
      .map(([channel, timeSeconds, measured]) => measurementOf(channel, timeSeconds, measured));
    fc.assert(
      fc.property(fc.array(measurement), (measurements) => {
        const inOrder = measurements.toSorted((first, second) => first.timeSeconds - second.timeSeconds);
        const pack = encode(packFromResolved(inOrder, { baseName: 'urn:dev:os:32473-1_' }));
        expect(decodeSenml(pack, { nowMs: 0 })).toEqual(inOrder);
      }),
    );
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%s cannot be sent', (v) => {
    expect(() => encode([{ n: 'a', v }])).toThrow('field "v"');
  });
});

function measurementOf(channel: string, timeSeconds: number, measured: number): ResolvedRecord {
  return {
    name: `urn:dev:os:32473-1_${channel}`,
    unit: 'Cel',
    timeSeconds,
    timeMs: Math.round(timeSeconds * 1000),
    kind: 'number',
    value: measured,
    version: 10,
  };
}

test('CBOR uses the integer keys and the shortest exact form of a number', () => {
  expect(toHex(encodeSenmlCbor([{ n: 'a', u: 'Cel', v: 1.5, t: -5 }]))).toBe(
    '81a4006161016343656c02f93e000624',
  );
});

test('a time before 1978 cannot be packed, since it would be read as relative', () => {
  expect(() => packFromResolved([measurementOf('core', 1000, 1)])).toThrow('1978');
});

test('a name without the base name cannot be packed under it', () => {
  expect(() => packFromResolved([measurementOf('core', 1e9, 1)], { baseName: 'urn:dev:os:1-2_' })).toThrow(
    'core',
  );
});
