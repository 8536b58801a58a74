/** What `/metrics` of the real program says, read by the reference parser of the format. */
import { expect, it } from 'vitest';
import {
  hasOpenMetricsParser,
  openMetricsParserMissing,
  parseOpenMetrics,
} from '../helpers/openMetricsParser.ts';
import { readOpenMetrics } from '../helpers/readOpenMetrics.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { startYardProcess } from '../helpers/yardProcess.ts';

/** What a monitor must find, by what it tells. */
const wanted: Readonly<Record<string, readonly string[]>> = {
  'queue depths': ['tilth_ingest_waiting_messages', 'tilth_messages', 'tilth_forward_waiting_readings'],
  ages: [
    'tilth_messages_oldest_waiting_seconds',
    'tilth_forward_waiting_age_seconds',
    'tilth_ingest_last_stored_age_seconds',
  ],
  lag: ['tilth_judgement_lag_seconds', 'tilth_judgement_cursor_backlog_readings'],
  alarms: ['tilth_alarms'],
  messages: ['tilth_ingest_messages', 'tilth_broker_messages'],
  'catching up': ['tilth_forward_readings_per_second', 'tilth_forward_left_seconds'],
};

describeIf(hasOpenMetricsParser, openMetricsParserMissing)('/metrics', () => {
  it('is OpenMetrics as its own parser reads it, with everything a monitor wants', async () => {
    const folder = await temporaryFolder();
    const influx = JSON.stringify({ url: 'http://127.0.0.1:9', version: '1' });
    const yard = await startYardProcess(`${folder.path}/data`, ['--series.influx', influx]);
    try {
      const page = await (await fetch(`${yard.url}/metrics`)).text();
      const families = parseOpenMetrics(page);
      const samples = families.flatMap((family) => family.samples);
      expect(samples.length).toBe(readOpenMetrics(page).size);
      expect(samples.length).toBeGreaterThan(60);
      const names = families.map(({ name }) => name);
      for (const [what, some] of Object.entries(wanted))
        expect(names, what).toEqual(expect.arrayContaining([...some]));
      for (const { name, unit } of families.filter((family) => family.unit !== ''))
        expect(name.endsWith(`_${unit}`)).toBe(true);
    } finally {
      await yard.stop();
      await folder.remove();
    }
  }, 60_000);

  it('refuses what is none, as a check of the check', () => {
    expect(() => parseOpenMetrics('# TYPE a counter\na 1\n# EOF\n')).toThrow();
    expect(() => parseOpenMetrics('# TYPE a gauge\na 1\n')).toThrow();
  });
});
