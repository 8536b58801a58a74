/**
 * Rows read again, with those that did not change as the very objects known before: what did not change can then be
 * told by comparing objects, and is held in memory once.
 */
export function keepEqual<Row extends { readonly id: string }>(
  before: readonly Row[],
  after: readonly Row[],
): Row[] {
  const known = new Map(before.map((row) => [row.id, row]));
  return after.map((row) => {
    const old = known.get(row.id);
    return old !== undefined && isSame(old, row) ? old : row;
  });
}

function isSame<Row extends object>(one: Row, other: Row): boolean {
  const keys = Object.keys(one) as (keyof Row)[];
  return keys.length === Object.keys(other).length && keys.every((key) => one[key] === other[key]);
}

/** The same objects in the same order. */
export function isSameList<Row>(one: readonly Row[] = [], other: readonly Row[] = []): boolean {
  return one.length === other.length && one.every((row, index) => row === other[index]);
}

/** Makes rows share their texts: each row read brings its own copy of the yard's id, a method or a position. */
export function sharedTexts(): <Row extends object>(row: Row) => Row {
  const texts = new Map<string, string>();
  return (row) => {
    const fields = row as Record<string, unknown>;
    for (const key of Object.keys(fields)) {
      const value = fields[key];
      if (typeof value !== 'string') continue;
      const known = texts.get(value);
      if (known === undefined) texts.set(value, value);
      else fields[key] = known;
    }
    return row;
  };
}
