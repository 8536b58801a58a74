import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mapCells } from './mapCells.ts';

const pile = (name: string, place: string) => ({ id: name, name, place });
const at = (place: string, column: number, row: number) => ({ place, column, row });

describe('piles on the map of their yard', () => {
  test('stand where their place is, side by side by name, without the empty edge', () => {
    const piles = [pile('Cage 10', 'wall'), pile('Cage 2', 'wall'), pile('Bin', 'row')];
    const { columns, rows, cells } = mapCells(piles, [at('wall', 3, 5), at('row', 4, 7)]);
    expect([columns, rows]).toEqual([2, 3]);
    expect(Object.fromEntries(cells)).toEqual({
      'Cage 2': { column: 1, row: 1 },
      'Cage 10': { column: 2, row: 1 },
      Bin: { column: 2, row: 3 },
    });
  });

  test('whose place is not on it come below, and nobody made a map at all: in a square', () => {
    const { rows, cells } = mapCells([pile('A', 'wall'), pile('B', 'new')], [at('wall', 1, 1)]);
    expect([rows, cells.get('B')]).toEqual([2, { column: 1, row: 2 }]);
    const four = ['a', 'b', 'c', 'd'].map((name) => pile(name, 'x'));
    expect(mapCells(four, [])).toMatchObject({ columns: 2, rows: 2 });
  });

  test('never share a cell, and none is outside, whatever the map', () => {
    const place = fc.constantFrom('a', 'b', 'c', 'd');
    const maps = fc.uniqueArray(
      fc.record({ place, column: fc.integer({ min: 1, max: 5 }), row: fc.integer({ min: 1, max: 5 }) }),
      {
        selector: (one) => one.place,
      },
    );
    fc.assert(
      fc.property(fc.array(place, { maxLength: 30 }), maps, (places, map) => {
        const piles = places.map((one, index) => pile(`p${index}`, one));
        const { columns, rows, cells } = mapCells(piles, map);
        expect(cells.size).toBe(piles.length);
        const keys = [...cells.values()].map(({ column, row }) => `${column} ${row}`);
        expect(new Set(keys).size).toBe(keys.length);
        for (const { column, row } of cells.values()) {
          expect(column >= 1 && column <= columns).toBe(true);
          expect(row >= 1 && row <= rows).toBe(true);
        }
      }),
    );
  });
});
