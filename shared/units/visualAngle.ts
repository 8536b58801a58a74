/**
 * Capital height in millimetres that fills an angle at a distance: 2 x distance x tan(angle / 2). ISO 9241-3 as quoted
 * publicly: 16 minutes of arc at least, 20 to 22 preferred.
 */
export function capitalHeightMillimetres(distanceMetres: number, minutesOfArc: number): number {
  const angleRadians = (minutesOfArc / 60) * (Math.PI / 180);
  return 2 * distanceMetres * 1000 * Math.tan(angleRadians / 2);
}

/** Share of a font's size its capitals reach; depends on the typeface, 0.7 is from memory (unconfirmed). */
export const usualCapitalShare = 0.7;

/** Font size in millimetres whose capitals have a height; `capitalShare` when the typeface is known. */
export function fontSizeMillimetres(capitalHeight: number, capitalShare = usualCapitalShare): number {
  return capitalHeight / capitalShare;
}
