import { hourOfDay } from '../../common/format.ts';
import { type Curve, endsOf } from './curve.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** From what is measured to where it is drawn, in CSS pixels of the plot. */
export interface Scale {
  readonly fromMs: number;
  readonly toMs: number;
  readonly bottom: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export const xAt = ({ fromMs, toMs, width }: Scale, atMs: number): number =>
  ((atMs - fromMs) / Math.max(1, toMs - fromMs)) * width;

export const yAt = ({ bottom, top, height }: Scale, value: number): number =>
  height - ((value - bottom) / (top - bottom)) * height;

export const valueAt = ({ bottom, top, height }: Scale, y: number): number =>
  bottom + ((height - y) / height) * (top - bottom);

/** Room for the curve, the lines and some to drag into; whole tens, so that the ticks stand still. */
export function verticalEnds(curve: Curve, lines: readonly number[], isFraction: boolean): [number, number] {
  const step = isFraction ? 0.1 : 10;
  const [lowest, highest] = endsOf(curve) ?? [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const least = Math.min(lowest, ...lines);
  const most = Math.max(highest, ...lines);
  if (least > most) return isFraction ? [0, 1] : [0, 90];
  const bottom = Math.floor((least - step / 2) / step) * step;
  const top = Math.ceil((most + step / 2) / step) * step;
  return isFraction ? [Math.max(0, bottom), Math.min(1, top)] : [bottom, top];
}

/** Midnights of the yard's zone, as many as have room. */
export function dayTicks({ fromMs, toMs, width }: Scale): number[] {
  const most = Math.max(2, Math.floor(width / 70));
  const every = Math.max(1, Math.ceil((toMs - fromMs) / dayMs / most));
  const ticks: number[] = [];
  let atMs = Math.ceil(fromMs / hourMs) * hourMs;
  while (hourOfDay(atMs) !== 0 && atMs < fromMs + 2 * dayMs) atMs += hourMs;
  for (; atMs <= toMs; atMs += every * dayMs) ticks.push(midnightNear(atMs));
  return ticks;
}

/** A day is 23 or 25 hours long when the clocks change. */
function midnightNear(atMs: number): number {
  const hour = hourOfDay(atMs);
  if (hour === 0) return atMs;
  return hour < 12 ? atMs - hour * hourMs : atMs + (24 - hour) * hourMs;
}

/** Round values for the ticks at the side, in shown units. */
export function valueTicks(least: number, most: number, height: number): number[] {
  const room = Math.max(2, Math.floor(height / 38));
  const step = [1, 2, 5, 10, 20, 25, 50].find((one) => (most - least) / one <= room) ?? 100;
  const ticks: number[] = [];
  for (let value = Math.ceil(least / step) * step; value <= most + 1e-9; value += step) ticks.push(value);
  return ticks;
}
