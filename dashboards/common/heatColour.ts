type Rgb = readonly [number, number, number];

/** Cool slate through straw to russet and char: low in saturation, dark with heat, so that grey copies keep the order. */
const stops: readonly (readonly [celsius: number, colour: Rgb])[] = [
  [0, [219, 225, 227]],
  [20, [201, 207, 190]],
  [40, [209, 183, 118]],
  [55, [196, 137, 76]],
  [65, [168, 88, 48]],
  [75, [120, 45, 30]],
  [90, [62, 22, 18]],
];

/** Colour of compost at a temperature, as `rgb(...)`; grey when it is not known. */
export function heatColour(celsius: number | null): string {
  if (celsius === null) return 'rgb(199 196 187)';
  const above = stops.findIndex(([limit]) => celsius < limit);
  if (above === 0) return shown(stops[0]![1]);
  if (above === -1) return shown(stops.at(-1)![1]);
  const [lowLimit, low] = stops[above - 1]!;
  const [highLimit, high] = stops[above]!;
  const share = (celsius - lowLimit) / (highLimit - lowLimit);
  return shown(low.map((part, index) => Math.round(part + (high[index]! - part) * share)) as unknown as Rgb);
}

function shown([red, green, blue]: Rgb): string {
  return `rgb(${red} ${green} ${blue})`;
}
