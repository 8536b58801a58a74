import { capitalHeightMillimetres, fontSizeMillimetres } from '../../shared/units/visualAngle.ts';

/** Width of a tile over its height at which it reads best. */
const tileShape = 1.45;
/** Smallest tile, in pixels: name, number and alarm can still be read close by. 200 of them fit on 1920 x 1080. */
export const smallestTile = { width: 102, height: 70 } as const;
/** Height of the pile's name over that of its tile; the smallest of what is written for reading from afar. */
const farTextShare = 0.165;
const millimetresPerInch = 25.4;
/** Capitals of 20 minutes of arc, ISO 9241-3's preferred least, at the distance the wall is made for. */
const farMetres = 5;
const farMinutesOfArc = 20;

export interface Area {
  readonly width: number;
  readonly height: number;
}

export interface Fit {
  readonly columns: number;
  readonly rows: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
}

/** Pixels between tiles: less where there are many. */
export const gapFor = (count: number) => (count > 60 ? 4 : 10);

/**
 * Columns and rows that give `count` tiles the most readable size in an area, all in pixels: the largest tile of the
 * wanted shape that fits, measured by the smaller of its width and its height stretched to that shape.
 */
export function fitTiles(count: number, area: Area, gap = gapFor(count)): Fit {
  let best: Fit = { columns: 1, rows: 1, tileWidth: area.width, tileHeight: area.height };
  let bestSize = 0;
  for (let columns = 1; columns <= Math.max(1, count); columns += 1) {
    const rows = Math.max(1, Math.ceil(count / columns));
    const tileWidth = (area.width - gap * (columns - 1)) / columns;
    const tileHeight = (area.height - gap * (rows - 1)) / rows;
    const size = Math.min(tileWidth, tileHeight * tileShape);
    if (size > bestSize) {
      bestSize = size;
      best = { columns, rows, tileWidth, tileHeight };
    }
  }
  return best;
}

/** How many tiles no smaller than `least` an area holds; at least one. */
export function mostTiles(area: Area, least: Area): number {
  const gap = gapFor(Number.POSITIVE_INFINITY);
  const columns = Math.floor((area.width + gap) / (least.width + gap));
  const rows = Math.floor((area.height + gap) / (least.height + gap));
  return Math.max(1, columns * rows);
}

/** Pixels a millimetre of a screen of this diagonal takes; `screen` is its size in the same pixels. */
export function pixelsPerMillimetre(screen: Area, diagonalInches: number): number {
  return Math.hypot(screen.width, screen.height) / (diagonalInches * millimetresPerInch);
}

/** Smallest tile whose name, number and alarm can be read from five metres on this screen, in pixels. */
export function farTile(screen: Area, diagonalInches: number): Area {
  const font = fontSizeMillimetres(capitalHeightMillimetres(farMetres, farMinutesOfArc));
  const height = (font * pixelsPerMillimetre(screen, diagonalInches)) / farTextShare;
  return { width: height * tileShape, height };
}

/** How far away, in metres, text of a font size in pixels can be read, by the same measure. */
export function readableMetres(fontPixels: number, screen: Area, diagonalInches: number): number {
  const fontAtOneMetre = fontSizeMillimetres(capitalHeightMillimetres(1, farMinutesOfArc));
  return fontPixels / pixelsPerMillimetre(screen, diagonalInches) / fontAtOneMetre;
}
