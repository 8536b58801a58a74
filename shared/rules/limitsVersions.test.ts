import { expect, test } from 'vitest';
import { overridesToRestore, RestoreError } from './limitsVersions.ts';

const version = (number: number, limitCelsius: number) => ({
  version: number,
  overrides: { 'too-hot-ceiling': { limitCelsius } },
});
const saved = [version(3, 66), version(2, 68), version(1, 70)];

test('undo goes back to the version before, and to the defaults before the first', () => {
  expect(overridesToRestore(saved, 3)).toEqual({ 'too-hot-ceiling': { limitCelsius: 68 } });
  expect(overridesToRestore(saved, 3, 1)).toEqual({ 'too-hot-ceiling': { limitCelsius: 70 } });
  expect(overridesToRestore([version(1, 70)], 1)).toEqual({});
});

test.each([
  [0, undefined, /nothing to undo/],
  [3, 3, /in force already/],
  [3, 7, /no version 7; allowed: 0 to 2/],
])('at version %s going to %s is refused in words', (current, to, words) => {
  expect(() => overridesToRestore(saved, current, to)).toThrow(RestoreError);
  expect(() => overridesToRestore(saved, current, to)).toThrow(words);
});
