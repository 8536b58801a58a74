/** Least contrast WCAG 2.2 asks for at level AA: text (1.4.3), large text, and parts of controls and charts (1.4.11). */
export const leastContrast = { text: 4.5, largeText: 3, graphics: 3 } as const;

/** Contrast ratio of two colours written `#rgb` or `#rrggbb`, 1 to 21 (WCAG 2.2). Throws RangeError for other forms. */
export function contrastRatio(first: string, second: string): number {
  const luminances = [relativeLuminance(first), relativeLuminance(second)];
  return (Math.max(...luminances) + 0.05) / (Math.min(...luminances) + 0.05);
}

/** Relative luminance of a colour, 0 (black) to 1 (white) (WCAG 2.2 definition, sRGB). */
export function relativeLuminance(colour: string): number {
  const [red, green, blue] = channelsOf(colour).map(linear);
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function channelsOf(colour: string): number[] {
  if (!/^#(?:[0-9a-f]{3}|[0-9a-f]{6})$/i.test(colour)) {
    throw new RangeError(`colour "${colour}": allowed #rgb or #rrggbb`);
  }
  const digits = colour.length === 4 ? colour.slice(1).replace(/./g, '$&$&') : colour.slice(1);
  return [0, 2, 4].map((start) => Number.parseInt(digits.slice(start, start + 2), 16) / 255);
}

function linear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}
