/** What of a row decides whether it stays. */
export interface ThinnablePoint {
  readonly timeMs: number;
  readonly value: number;
}

/**
 * How long each slice is: whole milliseconds, a little longer than an exact share, so that never one too many comes of
 * it. These are the slices InfluxDB can make, and so every store thins alike.
 */
export function sliceLengthMs(
  { firstMs, lastMs }: { readonly firstMs: number; readonly lastMs: number },
  slices: number,
): number {
  return Math.floor((lastMs - firstMs) / Math.max(1, slices)) + 1;
}

/**
 * Thins rows as they stream by: the first and the last stay, and of every equal slice of time between them the row of
 * the least and of the greatest value, in time order. With fewer than 4 points asked there is no room for extremes:
 * then 1 gives the last row and 2 or 3 the first and the last.
 *
 * `rows` must be in time order and start at `firstMs`, end at `lastMs`. At most `maxPoints` rows come back.
 */
export function thin<Row extends ThinnablePoint>(
  rows: Iterable<Row>,
  span: { readonly firstMs: number; readonly lastMs: number },
  maxPoints: number,
): Row[] {
  const slices = Math.floor((maxPoints - 2) / 2);
  const sliceMs = sliceLengthMs(span, slices);
  const kept: Row[] = [];
  let slice = -1;
  let lowest: Row | null = null;
  let highest: Row | null = null;
  let last: Row | null = null;
  for (const row of rows) {
    if (last === null) kept.push(row);
    last = row;
    const rowSlice = Math.floor((row.timeMs - span.firstMs) / sliceMs);
    if (rowSlice !== slice) {
      pushExtremes(kept, lowest, highest);
      [slice, lowest, highest] = [rowSlice, row, row];
    }
    if (lowest === null || row.value < lowest.value) lowest = row;
    if (highest === null || row.value > highest.value) highest = row;
  }
  if (slices > 0) pushExtremes(kept, lowest, highest);
  if (last !== null && kept.at(-1) !== last) kept.push(last);
  return kept.slice(-maxPoints);
}

function pushExtremes<Row extends ThinnablePoint>(
  kept: Row[],
  lowest: Row | null,
  highest: Row | null,
): void {
  if (lowest === null || highest === null) return;
  const inOrder = lowest.timeMs <= highest.timeMs ? [lowest, highest] : [highest, lowest];
  for (const row of inOrder) if (kept.at(-1) !== row) kept.push(row);
}
