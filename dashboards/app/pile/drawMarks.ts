import type uPlot from 'uplot';

/** What is drawn over the curves: a level, and moments. */
export interface ChartMarks {
  /** The too-hot limit in the yard's unit; null when it is not known. */
  readonly limit: number | null;
  /** Journal entries, seconds. */
  readonly seconds: readonly number[];
}

/** Draws the limit dashed and every journal entry as an upright line. */
export function drawMarks(plot: uPlot, { limit, seconds }: ChartMarks): void {
  const { ctx, bbox } = plot;
  const [right, bottom] = [bbox.left + bbox.width, bbox.top + bbox.height];
  ctx.save();
  ctx.strokeStyle = '#9c1622';
  ctx.setLineDash([8, 6]);
  ctx.lineWidth = 2;
  if (limit !== null) {
    const y = plot.valToPos(limit, 'y', true);
    line(ctx, bbox.left, y, right, y);
  }
  ctx.strokeStyle = '#7a7768';
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  for (const second of seconds) {
    const x = plot.valToPos(second, 'x', true);
    if (x >= bbox.left && x <= right) line(ctx, x, bbox.top, x, bottom);
  }
  ctx.restore();
}

function line(
  context: CanvasRenderingContext2D,
  fromX: number,
  fromY: number,
  toX: number,
  toY: number,
): void {
  context.beginPath();
  context.moveTo(fromX, fromY);
  context.lineTo(toX, toY);
  context.stroke();
}
