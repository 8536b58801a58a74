import fc from 'fast-check';
import { expect, it } from 'vitest';
import { spreadLabels } from './spreadLabels.ts';

it('puts half on each side, none on another, and inside where there is room', () => {
  const point = fc.record({ x: fc.integer({ min: 0, max: 300 }), y: fc.integer({ min: 0, max: 200 }) });
  fc.assert(
    fc.property(fc.array(point, { maxLength: 12 }), (points) => {
      const placed = spreadLabels(points, 30, 0, 200);
      expect(placed.map(({ index }) => index)).toEqual(points.map((_, index) => index));
      for (const side of ['left', 'right'] as const) {
        const ys = placed.filter((label) => label.side === side).map(({ y }) => y);
        expect(Math.abs(ys.length - points.length / 2)).toBeLessThan(1);
        const sorted = [...ys].sort((one, other) => one - other);
        sorted.slice(1).forEach((y, index) => {
          expect(y - sorted[index]!).toBeGreaterThanOrEqual(30);
        });
        expect(Math.max(...ys, 0)).toBeLessThanOrEqual(200);
      }
    }),
  );
});

it('leaves a label at its point where nothing is near', () => {
  expect(spreadLabels([{ x: 10, y: 40 }], 30, 0, 200)).toEqual([{ index: 0, side: 'right', y: 40 }]);
});
