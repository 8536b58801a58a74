import type { WallView } from '../../../shared/api/types.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import type { SeriesStore } from '../../series/port.ts';

const hourMs = 3_600_000;

/**
 * Rain of the last 24 clock hours. A gauge is a channel of the yard itself whose name ends in `_rain`; each reading is
 * the depth fallen since the reading before, in metres (SenML `m` or `mm`), so that the sum is the fall. Null when the
 * yard has no gauge or none spoke in that time: not having heard is not the same as no rain.
 */
export async function yardRain(
  series: SeriesStore,
  standing: readonly Placement[],
  nowMs: number,
): Promise<WallView['yard']['rain']> {
  const gauge = standing.find(({ pileId, channel }) => pileId === null && channel.endsWith('_rain'));
  if (gauge === undefined) return null;
  const fromMs = Math.max(Math.floor(nowMs / hourMs) * hourMs - 23 * hourMs, gauge.fromMs);
  const heard = (await series.rollups(gauge.channel, 'hour', fromMs, nowMs + 1)).filter(
    ({ count }) => count > 0,
  );
  const newest = (await series.latest([gauge.channel])).get(gauge.channel)?.lastGood;
  if (heard.length === 0 || !newest) return null;
  const metres = heard.reduce((sum, { mean, count }) => sum + mean * count, 0);
  return { millimetres: Math.round(metres * 10_000) / 10, timeMs: newest.timeMs };
}
