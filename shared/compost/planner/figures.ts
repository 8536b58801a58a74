import type { Feedstock } from '../mix/feedstockRow.ts';
import { feedstocks } from '../mix/feedstocks.ts';
import { cellOf, figureStatus, type Seen } from './figureStatus.ts';
import { type FigureName, type PlanLine, waterId } from './plan.ts';

/** One number of a line, how far it may be off, and where both come from. */
export interface Figure {
  /** `null`: neither the table nor the person has it. */
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly valueFrom: 'you' | 'middle of the printed range' | Seen | null;
  readonly rangeFrom: Seen | 'our allowance of 30 %' | null;
}

/** Pack section 2: "treat any default as +-30 %". */
const allowance = 0.3;

export function feedstockOf(line: PlanLine): Feedstock | null {
  return feedstocks.find(({ id }) => id === line.feedstockId) ?? null;
}

export function isWater(line: PlanLine): boolean {
  return line.feedstockId === waterId;
}

/**
 * A figure of a line: what the person typed counts as measured and has no range; otherwise the table's typical value,
 * or the middle where only a range is printed (as the pack does), with the printed range or our allowance.
 */
export function figureOf(line: PlanLine, name: FigureName): Figure {
  const own = line.own[name];
  if (own !== null) return { value: own, low: null, high: null, valueFrom: 'you', rangeFrom: null };
  const feedstock = feedstockOf(line);
  if (feedstock === null) return { value: null, low: null, high: null, valueFrom: null, rangeFrom: null };
  const { typical, low, high } = cellOf(feedstock, name);
  const status = figureStatus(feedstock, name);
  if (low !== null && high !== null) {
    const value = typical ?? (low + high) / 2;
    const valueFrom = typical === null ? 'middle of the printed range' : status.typical;
    return {
      value,
      low: Math.min(low, value),
      high: Math.max(high, value),
      valueFrom,
      rangeFrom: status.range,
    };
  }
  if (typical === null) return { value: null, low: null, high: null, valueFrom: null, rangeFrom: null };
  const spread = allowanceOf(name, typical);
  return {
    value: typical,
    low: typical - spread,
    high: typical + spread,
    valueFrom: status.typical,
    rangeFrom: 'our allowance of 30 %',
  };
}

/** For moisture, 30 % of whichever is less, water or solids: 30 % of 88 % water would be more than all of it (ours). */
function allowanceOf(name: FigureName, typical: number): number {
  return allowance * (name === 'moistureFraction' ? Math.min(typical, 1 - typical) : typical);
}
