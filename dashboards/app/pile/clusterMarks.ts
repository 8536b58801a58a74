/** Entries that stand too near each other on the chart to be tapped apart, as one mark. */
export interface Mark<T> {
  readonly pixels: number;
  readonly entries: readonly T[];
}

/** Groups entries so that marks stand at least `apart` pixels from each other; left out: what lies outside. */
export function clusterMarks<T extends { readonly timeMs: number }>(
  entries: readonly T[],
  shown: { readonly fromMs: number; readonly toMs: number },
  width: number,
  apart: number,
): Mark<T>[] {
  const marks: { pixels: number; entries: T[] }[] = [];
  const inside = entries.filter(({ timeMs }) => timeMs >= shown.fromMs && timeMs <= shown.toMs);
  for (const entry of [...inside].sort((one, other) => one.timeMs - other.timeMs)) {
    const pixels = ((entry.timeMs - shown.fromMs) / (shown.toMs - shown.fromMs)) * width;
    const last = marks.at(-1);
    if (last !== undefined && pixels - last.pixels < apart) last.entries.push(entry);
    else marks.push({ pixels, entries: [entry] });
  }
  return marks;
}
