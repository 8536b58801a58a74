import { expect, it } from 'vitest';
import { createRefusals } from './refusals.ts';

it('keeps the last refusal of each name, newest first, with how often it was', () => {
  const refusals = createRefusals();
  refusals.note('urn:dev:mac:1', 'wrong secret', 10);
  refusals.note('somebody', 'wrong secret', 20);
  refusals.note('urn:dev:mac:1', 'too many', 30);
  expect(refusals.list()).toEqual([
    { name: 'urn:dev:mac:1', reason: 'too many', atMs: 30, count: 2 },
    { name: 'somebody', reason: 'wrong secret', atMs: 20, count: 1 },
  ]);
});

it('forgets the oldest name rather than grow, and cuts a long one', () => {
  const refusals = createRefusals();
  for (let number = 0; number < 150; number += 1) refusals.note(`name ${number}`, 'wrong', number);
  refusals.note('x'.repeat(5000), 'wrong', 200);
  const names = refusals.list().map(({ name }) => name);
  expect(names).toHaveLength(100);
  expect(names[0]).toHaveLength(120);
  expect(names).not.toContain('name 0');
  expect(names).toContain('name 149');
});
