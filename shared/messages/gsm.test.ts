import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  encodingOf,
  packSeptets,
  partCount,
  partsOf,
  septetCount,
  septetsOf,
  smsLimits,
  unitCount,
} from './gsm.ts';
import { septetsByCharacter } from './gsmAlphabet.ts';

const gsmText = (maxLength: number) =>
  fc
    .array(fc.constantFrom(...septetsByCharacter.keys()), { maxLength })
    .map((characters) => characters.join(''));

test('the alphabet has 127 characters and ten more through ESC', () => {
  const lengths = [...septetsByCharacter.values()].map((septets) => septets.length);
  expect([
    lengths.filter((length) => length === 1).length,
    lengths.filter((length) => length === 2).length,
  ]).toEqual([127, 10]);
});

test('every code is used once', () => {
  const codes = [...septetsByCharacter.values()].map((septets) => septets.join());
  expect(new Set(codes).size).toBe(codes.length);
});

describe('parts', () => {
  /** Many characters of two units, so that they meet the end of a part often. */
  const pairs = (character: string) =>
    fc
      .array(fc.constantFrom('a', character), { minLength: 60, maxLength: 400 })
      .map((characters) => characters.join(''));
  const texts = fc.oneof(
    gsmText(700),
    pairs('€'),
    pairs('🌱'),
    fc.string({ unit: 'binary', maxLength: 300 }),
  );

  test('joined they are the text, each fits, and no pair is split', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const parts = partsOf(text);
        const limits = smsLimits[encodingOf(text)];
        const limit = parts.length === 1 ? limits.alone : limits.perPart;
        const units =
          encodingOf(text) === 'gsm' ? (part: string) => septetCount(part)! : (part: string) => part.length;
        expect(parts.join('')).toBe(text);
        for (const part of parts) expect(units(part)).toBeLessThanOrEqual(limit);
        expect(parts.flatMap((part) => [...part])).toEqual([...text]);
      }),
    );
  });

  test('there are at most as many as a wasted unit at the end of each would make', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const { alone, perPart } = smsLimits[encodingOf(text)];
        const units = unitCount(text);
        const most = units <= alone ? 1 : Math.ceil(units / (perPart - 1));
        expect(partCount(text)).toBeLessThanOrEqual(most);
      }),
    );
  });

  test('an empty text is one message', () => expect(partCount('')).toBe(1));
});

describe('packing', () => {
  /** The septets of packed octets, taken bit by bit: another way round than the packing. */
  const unpack = (octets: Uint8Array, count: number, fillBits: number): number[] => {
    const bits = [...octets].flatMap((octet) => Array.from({ length: 8 }, (_, bit) => (octet >> bit) & 1));
    const septet = (index: number) => bits.slice(fillBits + index * 7, fillBits + index * 7 + 7);
    return Array.from({ length: count }, (_, index) =>
      septet(index).reduce((value, bit, place) => value | (bit << place), 0),
    );
  };

  test('any septets can be unpacked again, with any number of fill bits', () => {
    const septets = fc.array(fc.integer({ min: 0, max: 127 }), { maxLength: 160 });
    fc.assert(
      fc.property(septets, fc.integer({ min: 0, max: 6 }), (codes, fillBits) => {
        expect(unpack(packSeptets(codes, fillBits), codes.length, fillBits)).toEqual(codes);
      }),
    );
  });

  test('160 septets are 140 octets', () => expect(packSeptets(septetsOf('a'.repeat(160)))).toHaveLength(140));

  test('"hello" is E8329BFD06', () => {
    expect([...packSeptets(septetsOf('hello'))]).toEqual([0xe8, 0x32, 0x9b, 0xfd, 0x06]);
  });
});

test('a character outside the alphabet is named', () => {
  expect(() => septetsOf('68 °C')).toThrow('character "°"');
});
