import type { MapPlace } from './yardMap.ts';

export interface Cell {
  readonly column: number;
  readonly row: number;
}

/** A yard's piles laid out as they stand: how many columns and rows that takes, and the cell of each pile. */
export interface MapLayout {
  readonly columns: number;
  readonly rows: number;
  readonly cells: ReadonlyMap<string, Cell>;
}

interface Standing {
  readonly id: string;
  readonly name: string;
  readonly place: string;
}

const collator = new Intl.Collator('en', { numeric: true });
const keyOf = ({ column, row }: Cell): string => `${column} ${row}`;

/**
 * Lays piles out by the map of their yard. Piles of one place stand side by side from its cell on, by name; a cell that
 * is taken is stepped over to the right. Empty columns and rows before the first pile are left out. Piles whose place
 * is not on the map come in rows of their own below.
 */
export function mapCells(piles: readonly Standing[], places: readonly MapPlace[]): MapLayout {
  const byName = [...piles].sort((one, other) => collator.compare(one.name, other.name));
  const taken = new Map<string, string>();
  const cells = new Map<string, Cell>();
  const put = (id: string, wanted: Cell) => {
    let cell = wanted;
    while (taken.has(keyOf(cell))) cell = { column: cell.column + 1, row: cell.row };
    taken.set(keyOf(cell), id);
    cells.set(id, cell);
  };
  const known = new Map(places.map((place) => [place.place, place]));
  for (const { id, place } of byName) {
    const cell = known.get(place);
    if (cell !== undefined) put(id, cell);
  }
  const least = smallest([...cells.values()]);
  const shifted = new Map(
    [...cells].map(([id, { column, row }]) => [
      id,
      { column: column - least.column + 1, row: row - least.row + 1 },
    ]),
  );
  return withRest(
    shifted,
    byName.filter(({ id }) => !cells.has(id)),
  );
}

function smallest(cells: readonly Cell[]): Cell {
  return {
    column: Math.min(Number.MAX_SAFE_INTEGER, ...cells.map(({ column }) => column)),
    row: Math.min(Number.MAX_SAFE_INTEGER, ...cells.map(({ row }) => row)),
  };
}

function withRest(cells: Map<string, Cell>, rest: readonly Standing[]): MapLayout {
  const mapped = [...cells.values()];
  const columns = Math.max(
    1,
    ...mapped.map(({ column }) => column),
    mapped.length === 0 ? Math.ceil(Math.sqrt(rest.length)) : 1,
  );
  const rows = Math.max(0, ...mapped.map(({ row }) => row));
  rest.forEach(({ id }, index) => {
    cells.set(id, { column: (index % columns) + 1, row: rows + 1 + Math.floor(index / columns) });
  });
  return { columns, rows: rows + Math.ceil(rest.length / columns), cells };
}
