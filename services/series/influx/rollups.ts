import type { ChannelName } from '../../../shared/yard/yard.ts';
import type { Rollup, RollupStep } from '../port.ts';
import type { InfluxHttp } from './influxHttp.ts';
import { between, type InfluxRow, identifier, quoted } from './influxQl.ts';
import { measurement } from './lines.ts';

const steps = {
  hour: { length: 3_600_000, literal: '1h' },
  day: { length: 86_400_000, literal: '1d' },
} as const;

/**
 * Roll-ups computed from the raw readings InfluxDB holds, hence right whenever late ones have arrived. Hours and days
 * start where the local store's do: at whole UTC ones.
 */
export async function queryRollups(
  http: InfluxHttp,
  channel: ChannelName,
  step: RollupStep,
  fromMs: number,
  toMs: number,
): Promise<Rollup[]> {
  const { length, literal } = steps[step];
  const firstMs = Math.ceil(fromMs / length) * length;
  const endMs = Math.ceil(toMs / length) * length;
  if (firstMs >= endMs) return [];
  const ask = (what: string, condition: string) =>
    http.select(
      `SELECT ${what} FROM ${identifier(measurement)} WHERE channel = ${quoted(channel)}${condition} AND ${between(firstMs, endMs)} GROUP BY time(${literal}) fill(none)`,
    );
  const [all, good] = await Promise.all([
    ask('count(value)', ''),
    ask('count(value), min(value), max(value), sum(value)', ` AND quality = 'good'`),
  ]);
  const goodByStart = new Map(good.map((row) => [Number(row.time), row]));
  return all.map((row) => rollupOf(row, goodByStart.get(Number(row.time))));
}

function rollupOf(all: InfluxRow, good: InfluxRow | undefined): Rollup {
  const [startMs, countAll] = [Number(all.time), Number(all.count)];
  if (good === undefined) return { startMs, count: 0, minimum: NaN, maximum: NaN, mean: NaN, countAll };
  const count = Number(good.count);
  const mean = Number(good.sum) / count;
  return { startMs, count, minimum: Number(good.min), maximum: Number(good.max), mean, countAll };
}
