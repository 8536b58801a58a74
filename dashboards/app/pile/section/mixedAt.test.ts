import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mixedAt } from './HeatField.tsx';

const core = { across: 0, up: 0.6, celsius: 65 };
const edge = { across: 0.5, up: 0.7, celsius: 25 };

it('is the point’s own temperature at a point, nearly, and alike on both sides', () => {
  expect(mixedAt([core, edge], 0, 0.6)).toBeCloseTo(65, -1);
  expect(mixedAt([core, edge], 0.5, 0.7)!).toBeLessThan(35);
  expect(mixedAt([core, edge], -0.5, 0.7)).toBeCloseTo(mixedAt([core, edge], 0.5, 0.7)!, 9);
});

it('never goes beyond what was measured, and is nothing where nothing was', () => {
  const source = fc.record({
    across: fc.double({ min: -1, max: 1, noNaN: true }),
    up: fc.double({ min: 0, max: 2, noNaN: true }),
    celsius: fc.double({ min: -10, max: 90, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(source, { minLength: 1, maxLength: 8 }), source, (sources, { across, up }) => {
      const values = sources.map(({ celsius }) => celsius);
      const mixed = mixedAt(sources, across, up)!;
      expect(mixed).toBeGreaterThanOrEqual(Math.min(...values) - 1e-9);
      expect(mixed).toBeLessThanOrEqual(Math.max(...values) + 1e-9);
    }),
  );
  expect(mixedAt([], 0, 0)).toBeNull();
});
