import type { PileChannel, SeriesChannel, SeriesView } from '../../../../shared/api/types.ts';
import type { Position } from '../../../../shared/yard/yard.ts';
import { oldAfterMs } from '../../../common/old.ts';

/** Whether what a point says can be taken for its temperature at that moment. */
export type Standing = 'good' | 'old' | 'silent' | 'not-believed';

/** One probe point at a moment. */
export interface PointAt {
  readonly placementId: string;
  readonly position: Position;
  readonly depthMetres: number | null;
  readonly standing: Standing;
  /** Last good value up to the moment; null when there was none for a day. */
  readonly celsius: number | null;
  readonly timeMs: number | null;
  /** Why it is not believed, where that is known. */
  readonly reason: string | null;
}

const dayMs = 86_400_000;
/** How long one entry of each step stands for. */
const stepMs = { raw: oldAfterMs, hour: 2 * 3_600_000, day: 2 * dayMs } as const;

/** The pile's temperature points now, from the latest readings of each. */
export function pointsNow(channels: readonly PileChannel[], nowMs: number): PointAt[] {
  return channels.filter(isInPile).map(({ id, position, depthMetres, last, lastGood }) => {
    const doubted = last !== null && last.quality !== 'good' && last.timeMs > (lastGood?.timeMs ?? 0);
    return {
      ...{ placementId: id, position, depthMetres },
      ...standingOf(lastGood, doubted ? last.timeMs : null, nowMs, oldAfterMs),
      reason: doubted ? last.reason : null,
    };
  });
}

/** The same at a moment of the past, from the curves. Points that stood there then, whether or not they still do. */
export function pointsAt(series: SeriesView, momentMs: number): PointAt[] {
  return series.channels
    .filter(({ quantity, position }) => quantity === 'temperature' && position !== 'air')
    .map((channel) => ({
      ...{ placementId: channel.placementId, position: channel.position, depthMetres: channel.depthMetres },
      ...standingAt(channel, series.step, momentMs),
      reason: null,
    }));
}

const isInPile = ({ pileId, quantity }: PileChannel) => pileId !== null && quantity === 'temperature';

type Stood = Pick<PointAt, 'standing' | 'celsius' | 'timeMs'>;

function standingAt(channel: SeriesChannel, step: SeriesView['step'], momentMs: number): Stood {
  const { raw, rollups } = channel;
  const times = raw?.timesMs ?? rollups?.startsMs ?? [];
  const values = raw?.values ?? rollups?.means ?? [];
  let at = lastUpTo(times, momentMs);
  while (raw !== null && at >= 0 && raw.quality[at] !== 0) at -= 1;
  const doubts = raw === null ? (rollups?.doubtfulStartsMs ?? []) : times;
  const doubt = lastUpTo(doubts, momentMs);
  const doubtedMs = doubt >= 0 && (at < 0 || doubts[doubt]! > times[at]!) ? doubts[doubt]! : null;
  const lastGood = at < 0 ? null : { value: values[at]!, timeMs: times[at]! };
  return standingOf(lastGood, doubtedMs, momentMs, stepMs[step]);
}

function standingOf(
  lastGood: { readonly value: number; readonly timeMs: number } | null,
  doubtedMs: number | null,
  momentMs: number,
  freshMs: number,
): Stood {
  const age = lastGood === null ? Number.POSITIVE_INFINITY : momentMs - lastGood.timeMs;
  const kept = age <= Math.max(dayMs, freshMs) ? lastGood : null;
  const said = { celsius: kept?.value ?? null, timeMs: kept?.timeMs ?? null };
  if (doubtedMs !== null && momentMs - doubtedMs <= freshMs) return { ...said, standing: 'not-believed' };
  if (age <= freshMs) return { ...said, standing: 'good' };
  return { ...said, standing: kept === null ? 'silent' : 'old' };
}

/** Index of the last time not after a moment; -1 when all are later. */
function lastUpTo(times: readonly number[], momentMs: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= momentMs) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
