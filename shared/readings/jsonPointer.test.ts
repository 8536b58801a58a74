import { expect, test } from 'vitest';
import { isJsonPointer, valueAtPointer } from './jsonPointer.ts';

/** The document and pointers of RFC 6901 section 5 that matter here. */
const document = { foo: ['bar', 'baz'], '': 0, 'a/b': 1, 'm~n': 8, ' ': 7 };

test.each([
  ['', document],
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/', 0],
  ['/a~1b', 1],
  ['/m~0n', 8],
  ['/ ', 7],
])('%j leads to its value', (pointer, value) => {
  expect(valueAtPointer(document, pointer)).toEqual(value);
});

test.each(['/foo/2', '/foo/01', '/foo/-', '/foo/length', '/x/y', '/toString', '/foo/0/0'])(
  '%j leads nowhere',
  (pointer) => {
    expect(valueAtPointer(document, pointer)).toBeUndefined();
  },
);

test('a pointer starts each level with a slash and escapes only ~0 and ~1', () => {
  expect(['', '/', '/a/b', '/~0~1'].map(isJsonPointer)).toEqual([true, true, true, true]);
  expect(['a', 'a/b', '/~', '/~2'].map(isJsonPointer)).toEqual([false, false, false, false]);
});
