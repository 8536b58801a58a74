export interface Placed {
  readonly index: number;
  readonly side: 'left' | 'right';
  readonly y: number;
}

/**
 * Puts the labels of points beside the picture, half of them on each side, in the order of their height and at least
 * `gap` apart, so that none lies on another whatever the probes' places.
 */
export function spreadLabels(
  points: readonly { readonly x: number; readonly y: number }[],
  gap: number,
  top: number,
  bottom: number,
): Placed[] {
  const order = points.map((_, index) => index).sort((a, b) => points[a]!.x - points[b]!.x || a - b);
  const left = order.slice(0, Math.floor(order.length / 2));
  const right = order.slice(left.length);
  return [...onSide('left', left), ...onSide('right', right)].sort((a, b) => a.index - b.index);

  function onSide(side: Placed['side'], indexes: readonly number[]): Placed[] {
    const sorted = [...indexes].sort((a, b) => points[a]!.y - points[b]!.y || a - b);
    const ys: number[] = [];
    for (const index of sorted) ys.push(Math.max(points[index]!.y, (ys.at(-1) ?? top - gap) + gap));
    // What ran out at the bottom is pushed up again.
    let floor = bottom;
    for (let at = ys.length - 1; at >= 0; at -= 1) {
      ys[at] = Math.min(ys[at]!, floor);
      floor = ys[at]! - gap;
    }
    return sorted.map((index, at) => ({ index, side, y: ys[at]! }));
  }
}
