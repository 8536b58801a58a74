import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromBase64Url, toBase64Url } from './base64url.ts';

test('any bytes come back', () => {
  fc.assert(
    fc.property(fc.uint8Array(), (bytes) => {
      expect(fromBase64Url(toBase64Url(bytes))).toEqual(Uint8Array.from(bytes));
    }),
  );
});

test.each(['a', 'ab==', 'a+bc', 'a/bc', 'a bc'])('%s is not URL-safe base64 without padding', (text) => {
  expect(fromBase64Url(text)).toBeNull();
});
