import type { Reading } from '../../shared/readings/reading.ts';
import type { ChannelName } from '../../shared/yard/yard.ts';
import { checkMaxPoints, checkReading } from './checkReading.ts';
import { groupCommits } from './groupCommit.ts';
import type { AppendResult, SeriesStore, StoredReading } from './port.ts';
import { packReadings, transferables, unpackReadings } from './sqlite/columns.ts';
import { openWorkerLink, type WorkerLink } from './sqlite/workerLink.ts';

export { SeriesFault } from './sqlite/workerLink.ts';

const readingsPerGroup = 20_000;
const dayMs = 86_400_000;

/** How the embedded series store is opened. */
export interface SqliteSeriesOptions {
  /** Path of the database file; its folder must exist. Two more files stand beside it while it is open. */
  readonly file: string;
}

/**
 * The embedded series store: one SQLite file, a thread that writes and a thread that reads, so that a screen asking for
 * a year never holds up a commit. Rejects with SeriesFault when the file cannot be opened.
 */
export async function openSqliteSeries(options: SqliteSeriesOptions): Promise<SeriesStore> {
  // The writer first: it makes the file and its tables.
  const writer = await openWorkerLink({ file: options.file, role: 'writer' });
  const reader = await openWorkerLink({ file: options.file, role: 'reader' });
  const appends = groupCommits<readonly Reading[], AppendResult>({
    commit: (groups) => commitGroup(writer, groups),
    size: (readings) => readings.length,
    largestGroup: readingsPerGroup,
  });
  return {
    async append(readings) {
      readings.forEach(checkReading);
      return appends.add(readings);
    },
    async trim(retention, nowMs) {
      if (retention.rawDays === null) return 0;
      const { upToSequence = Number.MAX_SAFE_INTEGER } = retention;
      return trimInSteps(writer, nowMs - retention.rawDays * dayMs, upToSequence);
    },
    ...readSide(reader),
    async close() {
      await appends.settled();
      await reader.close();
      await writer.close();
    },
  };
}

function readSide(
  reader: WorkerLink,
): Pick<SeriesStore, 'range' | 'rollups' | 'latest' | 'since' | 'channels'> {
  return {
    async range(query) {
      checkMaxPoints(query.maxPoints);
      return unpackReadings(await reader.call('range', [query]));
    },
    rollups: (channel, step, fromMs, toMs) => reader.call('rollups', [channel, step, fromMs, toMs]),
    latest: async (channels) => pairUp(unpackReadings(await reader.call('latest', [channels]))),
    since: async (sequence, limit) => unpackReadings(await reader.call('since', [sequence, limit])),
    channels: () => reader.call('channels', []),
  };
}

async function commitGroup(
  writer: WorkerLink,
  groups: readonly (readonly Reading[])[],
): Promise<AppendResult[]> {
  const columns = packReadings(groups);
  const lengths = groups.map((group) => group.length);
  const { stored, lastSequence } = await writer.call('append', [columns, lengths], transferables(columns));
  return stored.map((count, index) => ({ stored: count, duplicates: lengths[index]! - count, lastSequence }));
}

async function trimInSteps(writer: WorkerLink, beforeMs: number, upToSequence: number): Promise<number> {
  let removed = 0;
  for (;;) {
    const step = await writer.call('trimStep', [beforeMs, upToSequence]);
    removed += step;
    if (step === 0) return removed;
  }
}

/** Rows come as latest, latest good, channel after channel; where all are bad the second one is missing. */
function pairUp(rows: readonly StoredReading[]): Awaited<ReturnType<SeriesStore['latest']>> {
  const pairs = new Map<ChannelName, { last: StoredReading; lastGood: StoredReading | null }>();
  for (const row of rows) {
    const pair = pairs.get(row.channel);
    pairs.set(row.channel, pair === undefined ? { last: row, lastGood: null } : { ...pair, lastGood: row });
  }
  return pairs;
}
