import type { BaseLogger } from 'pino';
import type { Clock } from '../../clock.ts';
import type { Archive } from '../archive.ts';
import { keepLocalSpace } from '../influx/localSpace.ts';
import type { InfluxSettings } from '../influx/settings.ts';
import type { SeriesStore } from '../port.ts';
import type { ForwardState } from './forwardState.ts';
import type { JournalGauge } from './journalGauge.ts';
import { type Forwarder, startForwarder } from './startForwarder.ts';
import type { Waits } from './waits.ts';

const spaceEveryMs = 10 * 60_000;

export interface ForwardingParts {
  readonly influx: InfluxSettings;
  readonly journal: SeriesStore;
  readonly gauge: JournalGauge;
  readonly state: ForwardState;
  readonly archive: Archive;
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
  readonly waits?: Partial<Waits>;
}

/** The local store being given to the archive, and kept small where the settings say so. One process at a time. */
export interface Forwarding {
  readonly forwarder: Forwarder;
  /** Lets go locally of what InfluxDB has; runs by itself every ten minutes. */
  keepSpace(): Promise<number>;
  stop(): Promise<void>;
}

export function startForwarding(parts: ForwardingParts): Forwarding {
  const { influx, state, clock, logger, waits = {} } = parts;
  const limitBytes = influx.localGigabytes === null ? null : influx.localGigabytes * 1e9;
  // Tried again before the first write.
  noteBirth(parts).catch(() => {});
  const beforeFirstWrite = () => findPast(parts);
  const forwarder = startForwarder({ ...parts, limitBytes, waits, beforeFirstWrite });
  const space = {
    ...{ journal: parts.journal, state, localDays: influx.localDays },
    forwardedSequence: forwarder.forwardedSequence,
    disk: () => forwarder.status().disk,
  };
  const keepSpace = () => keepLocalSpace(space, clock.nowMs());
  const timer = setInterval(() => {
    keepSpace().catch((error: unknown) =>
      logger.error({ error }, 'the local store could not be made smaller'),
    );
  }, spaceEveryMs);
  return {
    ...{ forwarder, keepSpace },
    async stop() {
      clearInterval(timer);
      await forwarder.stop();
    },
  };
}

/** Remembers whether the yard began with this store or may have a past that only InfluxDB knows. */
async function noteBirth({ state, gauge, clock }: ForwardingParts): Promise<void> {
  if (state.mark('born-at-ms') !== null) return;
  await state.setMark('born-at-ms', gauge.lastSequence() === 0 ? clock.nowMs() : Number.MIN_SAFE_INTEGER);
}

/** An empty local store beside an InfluxDB that holds readings: the disk was replaced, and the past is asked of InfluxDB. */
async function findPast(parts: ForwardingParts): Promise<void> {
  const { state, archive } = parts;
  if (state.mark('rollups-from-ms') !== null) return;
  await noteBirth(parts);
  const bornMs = state.mark('born-at-ms') ?? Number.MIN_SAFE_INTEGER;
  const hasPast = bornMs !== Number.MIN_SAFE_INTEGER && (await archive.holdsReadings());
  const fromMs = hasPast ? bornMs : Number.MIN_SAFE_INTEGER;
  await state.setMark('local-from-ms', Math.max(state.mark('local-from-ms') ?? fromMs, fromMs));
  await state.setMark('rollups-from-ms', fromMs);
}
