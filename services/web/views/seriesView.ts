import { qualityFlags } from '../../../shared/api/constants.ts';
import type { RawColumns, RollupColumns, SeriesChannel, SeriesStep } from '../../../shared/api/types.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import type { Rollup, SeriesStore, StoredReading } from '../../series/port.ts';

const dayMs = 86_400_000;

/** What is asked for, with `auto` decided. */
export interface SeriesRequest {
  readonly fromMs: number;
  readonly toMs: number;
  readonly step: SeriesStep;
  readonly maxPoints: number;
  readonly quality: 'good' | 'all';
}

/** Raw up to a week, hours up to four months, then days: about what a screen is wide. */
export function chooseStep(step: SeriesStep | 'auto', spanMs: number): SeriesStep {
  if (step !== 'auto') return step;
  if (spanMs <= 7 * dayMs) return 'raw';
  return spanMs <= 120 * dayMs ? 'hour' : 'day';
}

/**
 * One placement's stretch of its channel: never what the probe measured before it came or after it left. Null when it
 * did not stand there in the range at all.
 */
export async function seriesChannel(
  series: SeriesStore,
  placement: Placement,
  request: SeriesRequest,
): Promise<SeriesChannel | null> {
  const fromMs = Math.max(request.fromMs, placement.fromMs);
  const toMs = Math.min(request.toMs, placement.toMs ?? request.toMs);
  if (toMs <= fromMs) return null;
  const { channel, quantity, position, depthMetres } = placement;
  const identity = { placementId: placement.id, channel, quantity, position, depthMetres };
  const { step, maxPoints, quality } = request;
  if (step === 'raw') {
    const readings = await series.range({ channel, fromMs, toMs, maxPoints, quality });
    return { ...identity, raw: rawColumns(readings), rollups: null };
  }
  const rollups = await series.rollups(channel, step, fromMs, toMs);
  return { ...identity, raw: null, rollups: rollupColumns(rollups) };
}

function rawColumns(readings: readonly StoredReading[]): RawColumns {
  return {
    timesMs: readings.map((reading) => reading.timeMs),
    values: readings.map((reading) => reading.value),
    quality: readings.map((reading) => qualityFlags[reading.quality]),
  };
}

function rollupColumns(all: readonly Rollup[]): RollupColumns {
  const rollups = all.filter(({ count }) => count > 0);
  const doubtful = all.filter(({ count, countAll }) => count === 0 && countAll > 0);
  return {
    startsMs: rollups.map((rollup) => rollup.startMs),
    minimums: rollups.map((rollup) => rollup.minimum),
    means: rollups.map((rollup) => rollup.mean),
    maximums: rollups.map((rollup) => rollup.maximum),
    counts: rollups.map((rollup) => rollup.count),
    doubtfulStartsMs: doubtful.map(({ startMs }) => startMs),
  };
}
