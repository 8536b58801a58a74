import { mkdir, open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { encodeSenmlJson } from '../../../shared/senml/encodeSenml.ts';
import type { Quantity } from '../../../shared/yard/yard.ts';
import type { Rollup, RollupStep, SeriesStore, StoredReading } from '../../series/port.ts';
import type { OnProgress } from '../progress.ts';
import type { ExportedChannel } from './manifest.ts';
import { readingLine, readingsHeader, rollupHeader, rollupLine } from './readingsCsv.ts';

const readingsAtOnce = 20_000;
const readingsPerPack = 10_000;
const dayMs = 86_400_000;
/** Later than any reading that could be stored: a probe's clock may run a week ahead. */
const aheadMs = 8 * dayMs;

type Source = Pick<SeriesStore, 'channels' | 'range' | 'rollups'>;

export interface SeriesExport {
  readonly series: Source;
  readonly folder: string;
  /** What each channel measures, as far as it was ever placed. */
  readonly quantityOf: (channel: string) => Quantity | null;
  readonly nowMs: number;
  readonly onProgress: OnProgress;
}

/** Writes every channel: all readings and both roll-ups as CSV, good readings as SenML JSON packs (RFC 8428). */
export async function exportSeries(options: SeriesExport): Promise<ExportedChannel[]> {
  const { series, folder, onProgress } = options;
  for (const name of ['readings', 'rollups', 'senml']) await mkdir(join(folder, name), { recursive: true });
  const channels = (await series.channels()).sort();
  const written: ExportedChannel[] = [];
  for (const [index, channel] of channels.entries()) {
    written.push(await exportChannel(options, channel, index + 1));
    onProgress('writing readings', (index + 1) / channels.length);
  }
  return written;
}

async function exportChannel(
  { series, folder, quantityOf, nowMs }: SeriesExport,
  channel: string,
  number: number,
): Promise<ExportedChannel> {
  const name = `${String(number).padStart(4, '0')}-${channel.replaceAll(/[^\w.-]+/g, '-').slice(-60)}`;
  const unit = unitOf(quantityOf(channel));
  const days = await series.rollups(channel, 'day', 0, nowMs + aheadMs);
  const readings = await writeReadings(series, channel, days, folder, name, unit);
  for (const step of ['hour', 'day'] satisfies RollupStep[]) {
    const rollups = step === 'day' ? days : await series.rollups(channel, step, 0, nowMs + aheadMs);
    const lines = rollups.map(rollupLine).join('');
    await writeFile(join(folder, 'rollups', `${name}-${step}.csv`), `${rollupHeader}${lines}`);
  }
  return { channel, unit, file: `readings/${name}.csv`, readings };
}

async function writeReadings(
  series: Source,
  channel: string,
  days: readonly Rollup[],
  folder: string,
  name: string,
  unit: string | null,
): Promise<number> {
  const csv = await open(join(folder, 'readings', `${name}.csv`), 'w');
  const packs = packWriter(join(folder, 'senml', name), channel, unit);
  let count = 0;
  try {
    await csv.write(readingsHeader);
    for (const { fromMs, toMs } of stretchesOf(days)) {
      const readings = await series.range({ channel, fromMs, toMs, quality: 'all' });
      await csv.write(readings.map(readingLine).join(''));
      await packs.add(readings.filter(({ quality }) => quality === 'good'));
      count += readings.length;
    }
    await packs.end();
  } finally {
    await csv.close();
  }
  return count;
}

/** Days of one stretch hold about as many readings as fit in memory comfortably. */
function stretchesOf(days: readonly Rollup[]): { fromMs: number; toMs: number }[] {
  const stretches: { fromMs: number; toMs: number; readings: number }[] = [];
  for (const { startMs, countAll } of days) {
    const last = stretches.at(-1);
    const isRoom = last !== undefined && last.readings + countAll <= readingsAtOnce;
    if (isRoom) Object.assign(last, { toMs: startMs + dayMs, readings: last.readings + countAll });
    else stretches.push({ fromMs: startMs, toMs: startMs + dayMs, readings: countAll });
  }
  return stretches;
}

function packWriter(path: string, channel: string, unit: string | null) {
  let waiting: StoredReading[] = [];
  let number = 0;
  async function write(readings: readonly StoredReading[]): Promise<void> {
    number += 1;
    const base = { bn: channel, ...(unit === null ? {} : { bu: unit }) };
    const records = readings.map(({ value, timeMs }, index) => ({
      ...(index === 0 ? base : {}),
      v: value,
      t: timeMs / 1000,
    }));
    await writeFile(`${path}-${String(number).padStart(4, '0')}.json`, encodeSenmlJson(records));
  }
  return {
    async add(readings: readonly StoredReading[]) {
      waiting = [...waiting, ...readings];
      for (; waiting.length >= readingsPerPack; waiting = waiting.slice(readingsPerPack))
        await write(waiting.slice(0, readingsPerPack));
    },
    async end() {
      if (waiting.length > 0) await write(waiting);
    },
  };
}

/** Values are kept in canonical units; shares are ratios 0..1 whatever they are shares of. */
function unitOf(quantity: Quantity | null): string | null {
  switch (quantity) {
    case 'temperature':
      return 'Cel';
    case 'voltage':
      return 'V';
    case 'moisture':
    case 'relative-humidity':
    case 'battery':
      return '/';
    default:
      return null;
  }
}
