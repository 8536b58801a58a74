import { expect, test } from 'vitest';
import { freeCode } from './code.ts';

test('codes are short, distinct and avoid characters that look alike', () => {
  const taken = new Set<string>();
  for (let i = 0; i < 400; i += 1) taken.add(freeCode(taken, `alarm ${i}`));
  expect(taken.size).toBe(400);
  for (const code of taken) expect(code).toMatch(/^[ABCDEFGHJKLMNPQRTUVWXY][346789]{1,2}$/);
  expect([...taken].filter((code) => code.length === 2)).toHaveLength(22 * 6);
});
