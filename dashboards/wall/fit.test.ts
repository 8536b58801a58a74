import { describe, expect, it } from 'vitest';
import { farTile, fitTiles, gapFor, mostTiles, readableMetres, smallestTile } from './fit.ts';

/** What a full-HD wall leaves for its tiles under the yard's strip. */
const area = { width: 1900, height: 980 };
const screen = { width: 1920, height: 1080 };

describe('a wall of some piles', () => {
  it('holds 200 piles at once on a full-HD screen, none smaller than the smallest tile', () => {
    expect(mostTiles(area, smallestTile)).toBeGreaterThanOrEqual(200);
    const { tileWidth, tileHeight, columns, rows } = fitTiles(200, area);
    expect(columns * rows).toBeGreaterThanOrEqual(200);
    expect(tileWidth).toBeGreaterThanOrEqual(smallestTile.width);
    expect(tileHeight).toBeGreaterThanOrEqual(smallestTile.height);
  });

  it.each([1, 2, 3, 7, 12, 13, 50, 61, 100, 199, 200])('fits %i without overlap or overflow', (count) => {
    const { columns, rows, tileWidth, tileHeight } = fitTiles(count, area);
    const gap = gapFor(count);
    expect(columns * rows).toBeGreaterThanOrEqual(count);
    expect(columns * tileWidth + (columns - 1) * gap).toBeCloseTo(area.width, 6);
    expect(rows * tileHeight + (rows - 1) * gap).toBeCloseTo(area.height, 6);
  });

  it('never makes tiles larger when there are more of them', () => {
    const sizes = Array.from({ length: 200 }, (_, index) => fitTiles(index + 1, area, 4));
    const readable = sizes.map(({ tileWidth, tileHeight }) => Math.min(tileWidth, tileHeight * 1.45));
    for (const [index, size] of readable.slice(1).entries())
      expect(size).toBeLessThanOrEqual(readable[index]!);
  });

  it('shows at least one pile on the smallest screen', () => {
    expect(mostTiles({ width: 40, height: 30 }, smallestTile)).toBe(1);
  });
});

describe('reading from five metres', () => {
  it('needs a tile high enough for its name to reach 29 mm capitals on that screen', () => {
    // 65 inches, 16:9: 809 mm high, so 1.335 px/mm. Capitals of 29.09 mm are 41.6 mm of font, 55.5 px, a 336 px tile.
    expect(farTile(screen, 65).height).toBeCloseTo(336.3, 0);
    expect(farTile(screen, 32.5).height).toBeCloseTo(2 * farTile(screen, 65).height, 6);
  });

  it('goes the other way too: that font reads from exactly five metres', () => {
    expect(readableMetres(farTile(screen, 55).height * 0.165, screen, 55)).toBeCloseTo(5, 2);
  });

  it('leaves few piles on a small screen and all twelve on a large one', () => {
    const counts = [43, 55, 65, 75, 86].map((inches) => mostTiles(area, farTile(screen, inches)));
    expect(counts).toEqual([2, 6, 6, 12, 15]);
  });
});
