import type { RangeQuery, StoredReading } from '../port.ts';
import { sliceLengthMs } from '../sqlite/thinning.ts';
import type { InfluxHttp } from './influxHttp.ts';
import { between, identifier, quoted } from './influxQl.ts';
import { fields, measurement, readingOf } from './lines.ts';

/** Rows asked for at once: some megabytes of answer. A longer range is fetched in pieces, each from where the last ended. */
const rowsAtOnce = 20_000;

interface Asked {
  readonly http: InfluxHttp;
  readonly channel: string;
  readonly quality: 'good' | 'all';
}

/** Readings of one channel; at most `maxPoints` of them, thinned by InfluxDB itself so that few cross the network. */
export async function queryRange(http: InfluxHttp, query: RangeQuery): Promise<StoredReading[]> {
  const { channel, fromMs, toMs, maxPoints, quality = 'good' } = query;
  if (fromMs >= toMs) return [];
  const asked = { http, channel, quality };
  if (maxPoints === undefined) return everything(asked, fromMs, toMs);
  const [counted] = await select(asked, 'count(value)', fromMs, toMs);
  if (Number(counted?.count ?? 0) <= maxPoints) return everything(asked, fromMs, toMs);
  return thinned(asked, fromMs, toMs, maxPoints);
}

async function everything(asked: Asked, fromMs: number, toMs: number): Promise<StoredReading[]> {
  const found: StoredReading[] = [];
  for (let nextMs = fromMs; nextMs < toMs; ) {
    const rows = await select(asked, `value, ${fields}`, nextMs, toMs, `ORDER BY time LIMIT ${rowsAtOnce}`);
    for (const row of rows) found.push(readingOf(asked.channel, row));
    if (rows.length < rowsAtOnce) break;
    // One channel has one reading at a time, and times are whole milliseconds.
    nextMs = found.at(-1)!.timeMs + 1;
  }
  return found;
}

/**
 * First and last, and of every equal slice of time between them the least and the greatest: the same promise as the
 * local store's. `top()` and `bottom()` keep the times of the points they choose, `min()` and `max()` would not.
 */
async function thinned(
  asked: Asked,
  fromMs: number,
  toMs: number,
  maxPoints: number,
): Promise<StoredReading[]> {
  const edge = async (order: string) => {
    const [row] = await select(asked, `value, ${fields}`, fromMs, toMs, `ORDER BY time ${order} LIMIT 1`);
    return row === undefined ? [] : [readingOf(asked.channel, row)];
  };
  const [first, last] = await Promise.all([edge('ASC'), edge('DESC')]);
  const slices = Math.floor((maxPoints - 2) / 2);
  const [start, end] = [first[0]?.timeMs, last[0]?.timeMs];
  if (slices < 1 || start === undefined || end === undefined) return [...first, ...last].slice(-maxPoints);
  const sliceMs = sliceLengthMs({ firstMs: start, lastMs: end }, slices);
  const offsetMs = ((start % sliceMs) + sliceMs) % sliceMs;
  const extremes = async (selector: 'bottom' | 'top') => {
    const group = `GROUP BY time(${sliceMs}ms, ${offsetMs}ms)`;
    const rows = await select(asked, `${selector}(value, 1), ${fields}`, start, end + 1, group);
    return rows.map((row) => readingOf(asked.channel, row, selector));
  };
  const [lowest, highest] = await Promise.all([extremes('bottom'), extremes('top')]);
  return inOrderOnce([...first, ...lowest, ...highest, ...last]);
}

function select(asked: Asked, what: string, fromMs: number, toMs: number, tail = '') {
  const quality = asked.quality === 'good' ? ` AND quality = 'good'` : '';
  const where = `channel = ${quoted(asked.channel)}${quality} AND ${between(fromMs, toMs)}`;
  return asked.http.select(`SELECT ${what} FROM ${identifier(measurement)} WHERE ${where} ${tail}`);
}

function inOrderOnce(readings: readonly StoredReading[]): StoredReading[] {
  const byTime = new Map(readings.map((reading) => [reading.timeMs, reading]));
  return [...byTime.values()].sort((a, b) => a.timeMs - b.timeMs);
}
