import { afterEach, beforeEach, expect, it } from 'vitest';
import { openInfluxArchive } from '../../services/series/influx/openArchive.ts';
import type { StoredReading } from '../../services/series/port.ts';
import { settingsFor } from '../helpers/influxd.ts';
import { caughtUp, openForwarding } from '../helpers/influxSeries.ts';
import { startVictoriaMetrics, victoriaMetricsProgram } from '../helpers/lineProtocolServer.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const channel = 'urn:dev:ow:28139bbb0b00001f_core';
const startMs = Math.floor(Date.now() / 1000) * 1000 - 4 * 3_600_000;

function readings(count: number): StoredReading[] {
  return Array.from({ length: count }, (_, index) => {
    const value = 60 + index / 16;
    const rest = { value, rawValue: value - 0.5, quality: 'good', reason: null } as const;
    return { channel, timeMs: startMs + index * 1000, sequence: index + 1, ...rest };
  });
}

/** The write path of InfluxDB 2.x and 3.x against a real server that speaks it; questions are not put to this one. */
describeIf(
  victoriaMetricsProgram !== null,
  'no victoria-metrics found; Debian has it in the package of that name',
)('writing over /api/v2/write', () => {
  let folder: Awaited<ReturnType<typeof temporaryFolder>>;
  let server: Awaited<ReturnType<typeof startVictoriaMetrics>>;
  const settings = () => settingsFor(server.url, { version: '2', org: 'gannet row', database: 'yard/raw' });
  beforeEach(async () => {
    folder = await temporaryFolder();
    server = await startVictoriaMetrics(folder.path);
  });
  afterEach(async () => {
    await server.stop();
    await folder.remove();
  });

  it('brings value, raw value, time in milliseconds and channel as they are', async () => {
    const sent = readings(300);
    expect(await openInfluxArchive(settings()).write(sent)).toEqual({ beyondRetention: 0 });
    for (const [field, pick] of [
      ['reading_value', 'value'],
      ['reading_raw_value', 'rawValue'],
      ['reading_sequence', 'sequence'],
    ] as const) {
      const [series, ...others] = await server.exported(field);
      expect(others).toEqual([]);
      expect(series!.metric.channel).toBe(channel);
      expect(series!.timestamps).toEqual(sent.map(({ timeMs }) => timeMs));
      expect(series!.values).toEqual(sent.map((reading) => reading[pick]));
    }
  });

  it('drains a local store of more than one batch, each reading once', async () => {
    const opened = await openForwarding(folder.path, settings());
    await opened.local.append(readings(12_000).map(({ sequence: _, ...reading }) => reading));
    await caughtUp(opened);
    await opened.close();
    const [series] = await server.exported('reading_value');
    expect(series!.values.length).toBe(12_000);
    expect(new Set(series!.timestamps).size).toBe(12_000);
  });
});
