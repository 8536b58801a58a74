import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LiveChangeEvent } from '../../../shared/api/types.ts';
import { createChangeRing } from './ring.ts';

const change = (number: number): LiveChangeEvent => ({ kind: 'pile', id: String(number) });

describe('the ring of changes', () => {
  it('gives exactly what came after an id it still knows, or says that it cannot', () => {
    const sizes = fc.integer({ min: 1, max: 20 });
    const counts = fc.integer({ min: 0, max: 60 });
    fc.assert(
      fc.property(sizes, counts, counts, (size, before, after) => {
        const ring = createChangeRing(size, 'run');
        for (let i = 1; i <= before; i += 1) ring.add(change(i));
        const seen = ring.newestId();
        for (let i = before + 1; i <= before + after; i += 1) ring.add(change(i));
        const missed = ring.after(seen);
        if (after > size) expect(missed).toBeNull();
        else
          expect(missed?.map(({ change: { id } }) => Number(id))).toEqual(range(before + 1, before + after));
      }),
    );
  });

  it.each(['', 'run', 'run-', 'run-x', 'run--1', 'run-6', 'other-3', '-3', 'run-1e1'])(
    'does not know the id "%s"',
    (id) => {
      const ring = createChangeRing(10, 'run');
      for (let i = 1; i <= 5; i += 1) ring.add(change(i));
      expect(ring.after(id)).toBeNull();
    },
  );
});

function range(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => from + index);
}
