import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createTimeGrid, gridAt, gridSamples, putInGrid } from './timeGrid.ts';

const minuteMs = 60_000;

test('keeps the highest of a cell, forgets what has left the ring, and does not take what is older', () => {
  const grid = createTimeGrid(10, 3);
  putInGrid(grid, 0, 5, 'highest');
  putInGrid(grid, 9 * minuteMs, 7, 'highest');
  putInGrid(grid, 9.5 * minuteMs, 6, 'highest');
  expect(gridAt(grid, 3 * minuteMs)).toBe(7);
  putInGrid(grid, 30 * minuteMs, 1, 'highest');
  expect([gridAt(grid, 0), gridAt(grid, 15 * minuteMs), gridAt(grid, 31 * minuteMs)]).toEqual([
    null,
    null,
    1,
  ]);
  putInGrid(grid, 0, 99, 'highest');
  expect(gridSamples(grid, 0, 40 * minuteMs).map(({ value }) => value)).toEqual([1]);
});

test('keeps hundredths, and what lies out of its range as the end of the range', () => {
  const grid = createTimeGrid(10, 3);
  const kept = [71.004, 71.006, -12.345].map((value, cell) => {
    putInGrid(grid, cell * 10 * minuteMs, value, 'highest');
    return gridAt(grid, cell * 10 * minuteMs);
  });
  expect(kept).toEqual([71, 71.01, -12.34]);
  putInGrid(grid, 30 * minuteMs, 5000, 'highest');
  expect(gridAt(grid, 30 * minuteMs)).toBe(327.67);
  const fractions = createTimeGrid(60, 3, 0.0001);
  putInGrid(fractions, 0, 0.61237, 'lowest');
  expect(gridAt(fractions, 0)).toBe(0.6124);
});

test('answers as a plain map of the last cells does', () => {
  const writes = fc.array(fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 90 })), {
    minLength: 1,
  });
  fc.assert(
    fc.property(writes, (pairs) => {
      const grid = createTimeGrid(10, 8);
      const cells = new Map<number, number>();
      for (const [minute, value] of pairs.toSorted((a, b) => a[0] - b[0])) {
        putInGrid(grid, minute * minuteMs, value, 'lowest');
        const cell = Math.floor(minute / 10);
        cells.set(cell, Math.min(cells.get(cell) ?? value, value));
      }
      const newest = Math.max(...cells.keys());
      for (let cell = 0; cell <= 41; cell += 1) {
        const wanted = cell > newest - 8 ? (cells.get(cell) ?? null) : null;
        expect(gridAt(grid, (cell * 10 + 1) * minuteMs)).toBe(wanted);
      }
    }),
  );
});
