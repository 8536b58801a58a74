import { tmpdir } from 'node:os';
import { afterEach, describe, expect, it } from 'vitest';
import { readOpenMetrics } from '../../tests/helpers/readOpenMetrics.ts';
import type { IngestStatistics } from '../ingest/port.ts';
import type { ForwardStatus } from '../series/port.ts';
import { formatOpenMetrics } from '../web/metrics/openMetrics.ts';
import { createOperations, type Operations } from './createOperations.ts';
import type { Sources } from './sources.ts';

const nowMs = 1_000_000;
const ingest: IngestStatistics = {
  ...{ messages: 12, readingsStored: 30, duplicates: 2, readingsBad: 1, readingsSuspect: 3, quarantined: 4 },
  ...{ recordsIgnored: 5, storageFaults: 0, failedCommitsInRow: 0, commits: 7 },
  ...{ lastCommitMilliseconds: 8, lastStoredMs: nowMs - 9000, waiting: 6 },
};
const forward: ForwardStatus = {
  ...{
    state: 'away',
    text: '',
    sinceMs: 0,
    waiting: 11,
    waitingSinceMs: nowMs - 60_000,
    forwardedSequence: 0,
  },
  ...{ written: 20, refused: 1, beyondRetention: 0, failures: 2, pace: null },
  disk: { level: 'ok', usedBytes: 1, limitBytes: 5e9 },
};
const none = { waiting: 0, sending: 0, sent: 0, delivered: 0, failed: 0, expired: 0 };
const well: Sources = {
  records: {
    alarms: { counts: async () => [{ state: 'unacknowledged', priority: 'high', count: 2 }] },
    messages: {
      standing: async () => ({ counts: { ...none, waiting: 3 }, oldestWaitingMs: nowMs - 5000 }),
    },
    people: { count: async () => 1 },
    quarantine: { total: async () => 4 },
    marks: {
      withPrefix: async () =>
        new Map([
          ['rules:cursor:one', '28'],
          ['rules:cursor:two', '25'],
        ]),
    },
  } as unknown as Sources['records'],
  series: { latest: async () => new Map() },
  seriesGauge: { lastSequence: () => 30, usedBytes: () => 4096 },
  ingest: { statistics: () => ingest },
  broker: null,
  source: () => ({ isConnected: () => true }),
  forwarder: () => ({ status: () => forward }),
  rules: { settle: async () => {}, yardCount: () => 2 },
  changes: { isConnected: () => true },
  services: ['ingest', 'rules'],
  processId: 'one',
  dataFolder: tmpdir(),
  version: '1.2.3',
  clock: { nowMs: () => nowMs },
};

let operations: Operations;
const start = (change: Partial<Sources> = {}) => {
  operations = createOperations({ ...well, ...change });
};
afterEach(() => operations.stop());

describe('metrics of a running program', () => {
  it('are read back by a monitor, with queues, ages, lag, alarms, messages and memory', async () => {
    start();
    const read = readOpenMetrics(formatOpenMetrics(await operations.metrics()));
    const value = (name: string) => read.get(name);
    expect(value('tilth_ingest_messages_total')).toBe(12);
    expect(value('tilth_ingest_waiting_messages')).toBe(6);
    expect(value('tilth_ingest_last_stored_age_seconds')).toBe(9);
    expect(value('tilth_ingest_readings_doubted_total{quality="suspect"}')).toBe(3);
    expect(value('tilth_alarms{priority="high",state="unacknowledged"}')).toBe(2);
    expect(value('tilth_alarms{priority="low",state="shelved"}')).toBe(0);
    expect(value('tilth_messages{state="waiting"}')).toBe(3);
    expect(value('tilth_messages_oldest_waiting_seconds')).toBe(5);
    expect(value('tilth_judgement_cursor_backlog_readings')).toBe(5);
    expect(value('tilth_judgement_lag_seconds')).toBeLessThan(5);
    expect(value('tilth_forward_state{state="away"}')).toBe(1);
    expect(value('tilth_forward_waiting_age_seconds')).toBe(60);
    expect(value('tilth_source_connected')).toBe(1);
    expect(value('process_resident_memory_bytes')).toBeGreaterThan(1e6);
    expect(value('tilth_data_disk_free_bytes')).toBeGreaterThan(0);
  });

  it('leave out what does not run here', async () => {
    start({ ingest: null, forwarder: () => null, rules: null, source: () => null, services: ['web'] });
    const names = (await operations.metrics()).map(({ name }) => name);
    expect(
      names.filter((name) => /ingest|forward|source|broker|judgement_lag|judgement_yards/.test(name)),
    ).toEqual([]);
  });

  it('say which services run here, and whether the others are heard', async () => {
    start();
    const read = readOpenMetrics(formatOpenMetrics(await operations.metrics()));
    expect(read.get('tilth_process_service{service="rules"}')).toBe(1);
    expect(read.get('tilth_process_hears_others')).toBe(1);
    expect(read.get('tilth_judgement_yards')).toBe(2);
  });
});

describe('readiness of a running program', () => {
  const notReady = async () => (await operations.readiness()).filter(({ isReady }) => !isReady);

  it('is given when everything answers', async () => {
    start();
    const names = (await operations.readiness()).map(({ name }) => name);
    expect(await notReady()).toEqual([]);
    expect(names).toEqual(['records', 'series', 'arrival', 'storing', 'judgement']);
  });

  it('is given to a process that stands by', async () => {
    start({ source: () => ({ isConnected: () => null }), rules: { ...well.rules!, yardCount: () => 0 } });
    expect(await notReady()).toEqual([]);
    const texts = (await operations.readiness()).map(({ text }) => text).join('\n');
    expect(texts).toMatch(/this one stands by/);
    expect(texts).toMatch(/no yard is judged here/);
  });

  const fails = () => Promise.reject(new Error('no such file /secret/path'));
  it.each<[string, Partial<Sources>]>([
    ['records', { records: { ...well.records, people: { count: fails } } as unknown as Sources['records'] }],
    ['series', { series: { latest: fails } }],
    ['arrival', { source: () => ({ isConnected: () => false }) }],
    ['storing', { ingest: { statistics: () => ({ ...ingest, failedCommitsInRow: 1 }) } }],
    ['judgement', { rules: { settle: fails, yardCount: () => 1 } }],
  ])('is not given when %s fails, which is named, and no secret told', async (name, change) => {
    start(change);
    const [found, ...others] = await notReady();
    expect([found?.name, others]).toEqual([name, []]);
    expect(found?.text).not.toContain('secret');
  });
});
