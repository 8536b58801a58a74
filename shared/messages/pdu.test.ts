import { expect, test } from 'vitest';
import { submitPdus } from './pdu.ts';

test('a long text goes in parts that share a reference and say their place', () => {
  const pdus = submitPdus('+4670825135', 'a'.repeat(200), { reference: 0x2a });
  const userData = pdus.map(({ hex }) => hex.slice(2 * (1 + 2 + 2 + 5 + 3)));
  // Length in septets (7 of header), header of six octets, and the text one bit further on: 61h << 1 is C2h.
  expect(userData.map((data) => data.slice(0, 16))).toEqual(['A00500032A0201C2', '360500032A0202C2']);
  expect(pdus.map(({ hex }) => hex.slice(2, 4))).toEqual(['51', '51']);
  expect(pdus.map(({ length }) => length)).toEqual([12 + 1 + 140, 12 + 1 + 6 + 42]);
});

test('an odd number of digits is filled up with F, an even one is not', () => {
  expect(submitPdus('+46708251358', 'a')[0]!.hex).toContain('0B916407281553F8');
  expect(submitPdus('+4670825135', 'a')[0]!.hex).toContain('0A9164072815 53'.replace(' ', ''));
});

test('a text outside the GSM alphabet goes in UCS-2, counted in octets', () => {
  const { hex } = submitPdus('+46708251358', '5 °C')[0]!;
  expect(hex.slice(-2 * (3 + 1 + 8))).toBe('0008AA' + '08' + '0035002000B00043');
});

test('a number without the international form is refused', () => {
  expect(() => submitPdus('0708251358', 'a')).toThrow('allowed +');
});
