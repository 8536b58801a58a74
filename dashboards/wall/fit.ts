/** Width of a tile over its height at which it reads best. */
const tileShape = 1.62;
/** Tiles narrower than this cannot be read from across a yard; more piles than fit are shown in turn. */
export const narrowestTilePixels = 150;

export interface Fit {
  readonly columns: number;
  readonly rows: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
}

/**
 * Columns and rows that give `count` tiles the most readable size in an area, all in pixels: the largest tile of the
 * wanted shape that fits, measured by the smaller of its width and its height stretched to that shape.
 */
export function fitTiles(count: number, areaWidth: number, areaHeight: number, gap: number): Fit {
  let best: Fit = { columns: 1, rows: 1, tileWidth: areaWidth, tileHeight: areaHeight };
  let bestSize = 0;
  for (let columns = 1; columns <= Math.max(1, count); columns += 1) {
    const rows = Math.max(1, Math.ceil(count / columns));
    const tileWidth = (areaWidth - gap * (columns - 1)) / columns;
    const tileHeight = (areaHeight - gap * (rows - 1)) / rows;
    const size = Math.min(tileWidth, tileHeight * tileShape);
    if (size > bestSize) {
      bestSize = size;
      best = { columns, rows, tileWidth, tileHeight };
    }
  }
  return best;
}
