import type uPlot from 'uplot';
import type { TimedBandView } from '../../../shared/api/types.ts';

/** What is drawn under and over the curves, in the yard's unit and seconds. */
export interface ChartMarks {
  readonly levels: readonly ShownLevel[];
  /** Journal entries. */
  readonly seconds: readonly number[];
  readonly expected: TimedBandView | null;
  readonly forecast: TimedBandView | null;
  readonly nowSeconds: number;
}

export interface ShownLevel {
  readonly value: number;
  readonly label: string;
  readonly stroke: string;
  readonly dash: readonly number[];
}

/** Looks of the bands, told apart by their edges too: solid thin, or dashed with a line in the middle. */
export const bandLooks = {
  expected: { fill: 'rgba(85, 96, 90, 0.16)', edge: 'rgba(85, 96, 90, 0.75)', dash: [] as number[] },
  forecast: { fill: 'rgba(168, 88, 48, 0.24)', edge: '#6e2417', dash: [5, 4] },
} as const;

/** Under the curves: the band to be expected, what is to come, and where now is. */
export function drawBands(plot: uPlot, { expected, forecast, nowSeconds }: ChartMarks): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  if (expected !== null) drawBand(plot, expected, bandLooks.expected, false);
  if (forecast !== null) drawBand(plot, forecast, bandLooks.forecast, true);
  ctx.strokeStyle = '#22261e';
  ctx.lineWidth = 1.5;
  const x = plot.valToPos(nowSeconds, 'x', true);
  line(ctx, x, bbox.top, x, bbox.top + bbox.height);
  ctx.restore();
}

function drawBand(
  plot: uPlot,
  { startMs, stepMs, low, middle, high }: TimedBandView,
  look: (typeof bandLooks)[keyof typeof bandLooks],
  withMiddle: boolean,
): void {
  const { ctx } = plot;
  const { min, max } = plot.scales.x!;
  // Only rows in sight, and one more at each end: a band of a year must not slow the pulling down.
  const rowAt = (seconds: number) => (seconds * 1000 - startMs) / stepMs;
  const first = Math.max(0, Math.floor(rowAt(min!)));
  const last = Math.min(low.length - 1, Math.ceil(rowAt(max!)));
  if (last <= first) return;
  const x = (row: number) => plot.valToPos((startMs + row * stepMs) / 1000, 'x', true);
  const y = (value: number) => plot.valToPos(value, 'y', true);
  const trace = (values: readonly number[]) => {
    for (let row = first; row <= last; row += 1) ctx.lineTo(x(row), y(values[row]!));
  };
  ctx.fillStyle = look.fill;
  ctx.beginPath();
  trace(high);
  for (let row = last; row >= first; row -= 1) ctx.lineTo(x(row), y(low[row]!));
  ctx.fill();
  ctx.strokeStyle = look.edge;
  ctx.setLineDash(look.dash);
  for (const [values, width] of [[low, 1] as const, [high, 1] as const, [middle, 2] as const]) {
    if (values === middle && !withMiddle) continue;
    ctx.lineWidth = width;
    ctx.beginPath();
    trace(values);
    ctx.stroke();
  }
  ctx.setLineDash([]);
}

/** Over the curves: limits with their words, and journal entries as upright lines. */
export function drawMarks(plot: uPlot, { levels, seconds }: ChartMarks): void {
  const { ctx, bbox } = plot;
  const [right, bottom] = [bbox.left + bbox.width, bbox.top + bbox.height];
  const pixel = devicePixelRatio;
  ctx.save();
  ctx.strokeStyle = '#7a7768';
  ctx.lineWidth = 1;
  for (const second of seconds) {
    const x = plot.valToPos(second, 'x', true);
    if (x >= bbox.left && x <= right) line(ctx, x, bbox.top, x, bottom);
  }
  ctx.font = `600 ${12 * pixel}px system-ui, sans-serif`;
  ctx.textAlign = 'left';
  ctx.lineWidth = 2;
  for (const { value, label, stroke, dash } of levels) {
    const y = plot.valToPos(value, 'y', true);
    if (y < bbox.top || y > bottom) continue;
    ctx.strokeStyle = stroke;
    ctx.setLineDash([...dash]);
    line(ctx, bbox.left, y, right, y);
    ctx.setLineDash([]);
    ctx.strokeStyle = '#f7f5ef';
    ctx.lineWidth = 4 * pixel;
    ctx.strokeText(label, bbox.left + 6 * pixel, y - 5 * pixel);
    ctx.fillStyle = stroke;
    ctx.fillText(label, bbox.left + 6 * pixel, y - 5 * pixel);
    ctx.lineWidth = 2;
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
