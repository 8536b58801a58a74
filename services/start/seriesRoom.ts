import type { Forwarder } from '../series/forward/startForwarder.ts';
import type { Forwarding } from '../series/forward/startForwarding.ts';
import { usedFraction } from '../series/forward/status.ts';
import type { ForwardStatus } from '../series/port.ts';
import { startTrimming } from '../startTrimming.ts';
import type { Ground } from './ground.ts';

/** Whoever looks after the stored readings: gives them to InfluxDB, removes what is past its keeping. */
export interface SeriesRoom {
  /** Null without InfluxDB, and while another process forwards. */
  forwarder(): Forwarder | null;
  stop(): Promise<void>;
}

/** InfluxDB has, or is being given, what is stored; null where nothing is forwarded here. */
export function isForwarding(forwarder: Forwarder | null): boolean | null {
  if (forwarder === null) return null;
  const { state }: ForwardStatus = forwarder.status();
  return state === 'caught-up' || state === 'catching-up';
}

const keepingEveryMs = 1_000;

/** Of several processes one looks after the readings at a time, under a lease. */
export function startSeriesRoom(ground: Ground): SeriesRoom {
  const { configuration, clock, logger, store, sharing, standing } = ground;
  const share = sharing.share({ kind: 'series', pieces: async () => ['keeping'], leave: rest });
  let forwarding: Forwarding | null = null;
  let trimming: { stop(): void } | null = null;
  let changing: Promise<void> = Promise.resolve();
  const forwarder = () => store.forwarding?.forwarder ?? forwarding?.forwarder ?? null;
  standing.isForwarding = () => isForwarding(forwarder());
  standing.localSpaceUsedFraction = () => {
    const disk = forwarder()?.status().disk;
    return disk === undefined ? null : usedFraction(disk);
  };

  async function work(): Promise<void> {
    if (trimming !== null) return;
    trimming = startTrimming(store.series, { rawDays: configuration.series.rawDays }, clock, logger);
    forwarding = (await store.forward?.()) ?? null;
  }

  async function rest(): Promise<void> {
    trimming?.stop();
    trimming = null;
    const ending = forwarding;
    forwarding = null;
    await ending?.stop();
  }

  /** Only while the lease is held beyond doubt: what is written to InfluxDB twice does no harm, but costs. */
  function look(): void {
    changing = changing
      .then(() => (share.isOurs('keeping') ? work() : rest()))
      .catch((error: unknown) =>
        logger.error({ err: error }, 'the stored readings could not be looked after'),
      );
  }
  look();
  const timer = setInterval(look, keepingEveryMs);
  ground.changes.listen('readings-stored', () => forwarding?.forwarder.nudge());
  return {
    forwarder,
    async stop() {
      clearInterval(timer);
      await changing;
      await rest();
    },
  };
}
