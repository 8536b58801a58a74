import { join } from 'node:path';
import { systemClock } from '../../services/clock.ts';
import { openForwardState } from '../../services/series/forward/forwardState.ts';
import type { InfluxSettings } from '../../services/series/influx/settings.ts';
import { type OpenedSeries, openSeries, type SeriesOptions } from '../../services/series/openSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { eventually } from './eventually.ts';
import { quietLogger } from './writePath.ts';

/** Waits short enough for a test. */
export const quickWaits = { firstMs: 20, longestMs: 100, forPersonMs: 100, gatherMs: 5, lookMs: 50 };

/** Opens a local store that forwards to InfluxDB. */
export function openForwarding(
  folder: string,
  influx: InfluxSettings,
  change: Partial<SeriesOptions> = {},
): Promise<OpenedSeries> {
  return openSeries({
    folder,
    influx,
    clock: systemClock,
    logger: quietLogger,
    waits: quickWaits,
    ...change,
  });
}

/** Resolves when InfluxDB was given everything stored so far. */
export async function caughtUp({ forwarder }: OpenedSeries, deadlineMilliseconds = 15_000): Promise<void> {
  await eventually('InfluxDB has everything', () => forwarder!.status().waiting === 0, deadlineMilliseconds);
}

/**
 * Sets a fresh folder up like a yard whose disk was replaced: its whole past, here every reading there will be, is asked
 * of InfluxDB, and none of it of the local store.
 */
export function askEverythingOfInflux(folder: string): void {
  const state = openForwardState(join(folder, 'forward.sqlite'));
  const farFutureMs = Date.UTC(2200, 0, 1);
  void state.setMark('local-from-ms', farFutureMs);
  void state.setMark('rollups-from-ms', farFutureMs);
  state.close();
}

/** The store as a caller sees it who asks only after the forwarder is done. */
export function afterForwarding(opened: OpenedSeries): SeriesStore {
  const { series } = opened;
  const after = async <Result>(ask: () => Promise<Result>): Promise<Result> => {
    await caughtUp(opened, 120_000);
    return ask();
  };
  return {
    ...series,
    range: (query) => after(() => series.range(query)),
    rollups: (...question) => after(() => series.rollups(...question)),
    trim: (...question) => after(() => series.trim(...question)),
  };
}
