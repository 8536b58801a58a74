import type { Row } from '../kind.ts';

/** One row of a table. */
export function row(chances: readonly number[], expect: string, source: string): Row {
  return { chances, expect, source };
}

/** A row half as telling: each chance half-way to that of all other causes. */
export function softened(sharp: Row, otherwise: Row, source: string): Row {
  const chances = sharp.chances.map((chance, index) => (chance + otherwise.chances[index]!) / 2);
  return { chances, expect: sharp.expect, source };
}
