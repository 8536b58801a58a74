import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ListenConfig } from '../../services/broker/listeners.ts';
import { probeCredentials } from '../../services/broker/probeCredentials.ts';
import { startBroker } from '../../services/broker/startBroker.ts';
import { systemClock } from '../../services/clock.ts';
import { createIngest, type IngestOptions } from '../../services/ingest/createIngest.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import { createFakeRecords } from './fakeRecords.ts';

export const yardId = 'gannet-row';
export const firstProbe = 'urn:dev:ow:28139bbb0b00001f';
export const secondProbe = 'urn:dev:ow:28aa3c61551401f0';
export const readingsTopic = (probe: string) => `tilth/${yardId}/${probe}/readings`;

export const quietLogger = { info: () => {}, warn: () => {}, error: () => {} };

/** A new folder of its own, and how to remove it. */
export async function temporaryFolder(): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'tilth-test-'));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

/** Ingest over a fresh SQLite store and records in memory, with two probes whose secret is their own name reversed. */
export async function startIngest(change: Partial<IngestOptions> & { readonly folder?: string } = {}) {
  const folder = change.folder === undefined ? await temporaryFolder() : null;
  const records = createFakeRecords();
  for (const probe of [firstProbe, secondProbe]) records.addProbe(probe, secretOf(probe), yardId);
  const series = await openSqliteSeries({ file: join(change.folder ?? folder!.path, 'series.sqlite') });
  const ingest = createIngest({
    series,
    records,
    clock: systemClock,
    logger: quietLogger,
    settings: { mappings: [], groupMilliseconds: 2, futureToleranceSeconds: 300, refreshMilliseconds: 0 },
    ...change,
  });
  const stop = async () => {
    await ingest.settled();
    await series.close();
    await folder?.remove();
  };
  return { records, series, ingest, stop };
}

export function secretOf(probe: string): string {
  return [...probe].reverse().join('');
}

/** The whole write path: embedded broker on a free port, ingest, store. */
export async function startWritePath(
  change: Parameters<typeof startIngest>[0] & {
    readonly port?: number;
    /** How the broker listens, where not on plain TCP. */
    readonly listen?: Partial<ListenConfig>;
  } = {},
) {
  const { stop: stopIngest, ...parts } = await startIngest(change);
  const broker = await startBroker({
    config: {
      ...{ host: '127.0.0.1', port: change.port ?? 0, tls: null, maxPayloadBytes: 262_144 },
      ...change.listen,
    },
    ingest: parts.ingest,
    credentials: probeCredentials(parts.records.probes),
    clock: systemClock,
    logger: quietLogger,
  });
  const stop = async () => {
    await broker.stop();
    await stopIngest();
  };
  return { ...parts, broker, url: `mqtt://127.0.0.1:${broker.port}`, stop };
}

export type WritePath = Awaited<ReturnType<typeof startWritePath>>;
