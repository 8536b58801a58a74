import { expect, test } from 'vitest';
import { isSameList, keepEqual, sharedTexts } from './keepEqual.ts';

test('rows that did not change stay the objects they were; changed and new ones are the new', () => {
  const before = [
    { id: 'a', place: 'bay 1' },
    { id: 'b', place: 'bay 2' },
  ];
  const after = [
    { id: 'c', place: 'bay 9' },
    { id: 'a', place: 'bay 1' },
    { id: 'b', place: 'bay 3' },
  ];
  const kept = keepEqual(before, after);
  expect(kept).toEqual(after);
  expect([kept[0] === after[0], kept[1] === before[0], kept[2] === after[2]]).toEqual([true, true, true]);
  expect(isSameList(before, keepEqual(before, structuredClone(before)))).toBe(true);
  expect(isSameList(before, kept)).toBe(false);
});

test('shared texts change no value', () => {
  const rows = [{ id: 'a', method: 'hot-bin', toMs: null }].map(sharedTexts());
  expect(rows).toEqual([{ id: 'a', method: 'hot-bin', toMs: null }]);
});
