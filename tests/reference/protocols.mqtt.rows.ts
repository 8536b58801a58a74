import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import { isValidTopicFilter, parseSharedFilter, topicMatches } from '../../shared/messages/topicFilter.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import type { CheckRow } from './checkRow.ts';

// The length encoding is the library's own; the row guards against a release that gets it wrong.
const { genBufVariableByteInt } = createRequire(import.meta.url)('mqtt-packet/numbers.js') as {
  genBufVariableByteInt: (length: number) => Buffer;
};

const confirmed = 'confirmed by lookup';

function row(id: string, source: string, status: string, check: CheckRow['check']): CheckRow {
  return { id, source, status, check };
}

const reading = (timeMs: number): Reading => ({
  channel: 'urn:dev:os:32473-1_core',
  timeMs,
  rawValue: 60,
  value: 60,
  quality: 'good',
  reason: null,
});

/** What a broker may legally deliver around a lost connection, put into the real embedded store. */
async function rowsKeptOf(times: readonly number[]): Promise<number[]> {
  const folder = mkdtempSync(join(tmpdir(), 'tilthwatch-'));
  try {
    const store = await openSqliteSeries({ file: join(folder, 'series.db') });
    for (const timeMs of times) await store.append([reading(timeMs)]);
    const kept = await store.range({ channel: reading(0).channel, fromMs: 0, toMs: 100 });
    await store.close();
    return kept.map(({ timeMs }) => timeMs);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export const rows: CheckRow[] = [
  row('C-40', 'MQTT 2.2.3 / 1.5.5', 'confirmed by lookup, R', () => {
    const lengths = [127, 128, 16_383, 16_384, 2_097_151, 2_097_152, 268_435_455];
    const written = ['7f', '8001', 'ff7f', '808001', 'ffff7f', '80808001', 'ffffff7f'];
    expect(lengths.map((length) => genBufVariableByteInt(length).toString('hex'))).toEqual(written);
  }),
  row('C-41', 'MQTT 4.7.1.2', confirmed, () => {
    const topics = ['', '/ranking', '/score/wimbledon'].map((end) => `sport/tennis/player1${end}`);
    expect(topics.map((topic) => topicMatches('sport/tennis/player1/#', topic))).toEqual([true, true, true]);
  }),
  row('C-42', '4.7.1.2', confirmed, () => expect(topicMatches('sport/#', 'sport')).toBe(true)),
  row('C-43', '4.7.1', confirmed, () => {
    const filters = ['sport/tennis#', 'sport/tennis/#/ranking', 'sport+'];
    expect(filters.map(isValidTopicFilter)).toEqual([false, false, false]);
  }),
  row('C-44', '4.7.1.3', confirmed, () => {
    expect(['sport', 'sport/'].map((topic) => topicMatches('sport/+', topic))).toEqual([false, true]);
  }),
  row('C-45', '4.7.1.3', confirmed, () => {
    expect(['+/+', '/+', '+'].map((filter) => topicMatches(filter, '/finance'))).toEqual([true, true, false]);
  }),
  row('C-46', '4.7.2', confirmed, () => {
    const filters = ['#', '+/monitor/Clients', '$SYS/#'];
    const matches = filters.map((filter) => topicMatches(filter, '$SYS/monitor/Clients'));
    expect(matches).toEqual([false, false, true]);
  }),
  row('C-47', '5.0 4.8.2', confirmed, () => {
    expect(parseSharedFilter('$share/consumer1//finance')).toEqual({
      shareName: 'consumer1',
      filter: '/finance',
    });
  }),
  row('C-48', '5.0 4.8.2', confirmed, () => {
    const filters = ['$share/grouponly', '$share//t', '$share/a+b/t'];
    expect(filters.map(isValidTopicFilter)).toEqual([false, false, false]);
  }),
  row('C-49', '4.6 comment', confirmed, async () => {
    expect(await rowsKeptOf([1, 2, 3, 2, 3, 4])).toEqual([1, 2, 3, 4]);
  }),
];
