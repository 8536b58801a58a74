import { type Archive, ArchiveFault } from '../archive.ts';
import type { StoredReading } from '../port.ts';
import { createInfluxHttp, type InfluxHttp } from './influxHttp.ts';
import { between, identifier, quoted, timeLiteral } from './influxQl.ts';
import { lineOf, measurement } from './lines.ts';
import { queryRange } from './range.ts';
import { queryRollups } from './rollups.ts';
import type { InfluxSettings } from './settings.ts';

/**
 * InfluxDB as an archive: line protocol in, InfluxQL out, which 1.8, 2.x and 3.x all answer. Opening asks nothing of the
 * server, so that a yard starts while it is away.
 */
export function openInfluxArchive(settings: InfluxSettings): Archive {
  const http = createInfluxHttp(settings);
  return {
    place: http.place,
    write: (readings, signal) => write(http, readings, signal),
    range: (query) => queryRange(http, query),
    rollups: (channel, step, fromMs, toMs) => queryRollups(http, channel, step, fromMs, toMs),
    async holdsReadings() {
      return (await http.select(`SELECT value FROM ${identifier(measurement)} LIMIT 1`)).length > 0;
    },
    async removeBefore(channels, beforeMs) {
      let removed = 0;
      for (const channel of channels) removed += await removeOne(http, settings, channel, beforeMs);
      return removed;
    },
  };
}

/** InfluxDB stores the rest of the batch and then answers 400 with this when some were too old for it. */
const tooOld = /points beyond retention policy dropped=(\d+)/;

async function write(http: InfluxHttp, readings: readonly StoredReading[], signal?: AbortSignal) {
  try {
    await http.write(readings.map(lineOf).join('\n'), signal);
    return { beyondRetention: 0 };
  } catch (error) {
    const dropped = error instanceof ArchiveFault && error.kind === 'refused' && tooOld.exec(error.message);
    if (!dropped) throw error;
    return { beyondRetention: Number(dropped[1]) };
  }
}

/** One channel at a time: others may keep their readings in the same database. */
async function removeOne(
  http: InfluxHttp,
  { version }: InfluxSettings,
  channel: string,
  beforeMs: number,
): Promise<number> {
  const from = `FROM ${identifier(measurement)} WHERE channel = ${quoted(channel)}`;
  const [counted] = await http.select(
    `SELECT count(value) ${from} AND ${between(Number.NEGATIVE_INFINITY, beforeMs)}`,
  );
  if (counted === undefined) return 0;
  if (version === '1') await http.execute(`DELETE ${from} AND time < ${timeLiteral(beforeMs)}`);
  else if (version === '2') {
    const predicate = `_measurement="${measurement}" AND channel="${channel.replaceAll(/["\\]/g, '\\$&')}"`;
    await http.deleteWhere(predicate, beforeMs);
  } else throw new ArchiveFault('refused', `${http.place}: version 3 removes by its own retention only`);
  return Number(counted.count);
}
