import fc from 'fast-check';
import { expect, test } from 'vitest';
import { duplicateMember, hasDuplicateMember } from './duplicateMember.ts';

test('no JSON that was written from a value is taken for one with duplicates', () => {
  fc.assert(
    fc.property(fc.json(), (text) => {
      expect(hasDuplicateMember(text, JSON.parse(text))).toBe(false);
    }),
  );
});

test('a repeated name is found at any depth, however it is written', () => {
  const written = [
    '[{"a":1,"a":1}]',
    '[{"x":{"a":1,"a":2}}]',
    '[{"a":1,"\\u0061":2}]',
    '[{ "a" : [] , "a" : {} }]',
  ];
  expect(written.map((text) => hasDuplicateMember(text, JSON.parse(text)))).toEqual([true, true, true, true]);
  expect(written.map((text) => duplicateMember(text)?.name)).toEqual(['a', 'a', 'a', 'a']);
});

test('the same name in two records is no duplicate', () => {
  const text = '[{"a":1},{"a":1,"b":{"a":2}}]';
  expect(hasDuplicateMember(text, JSON.parse(text))).toBe(false);
  expect(duplicateMember(text)).toBeNull();
});
