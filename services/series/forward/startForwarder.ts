import type { BaseLogger } from 'pino';
import type { Clock } from '../../clock.ts';
import { type Archive, ArchiveFault } from '../archive.ts';
import type { SeriesStore, StoredReading } from '../port.ts';
import { deliver } from './deliver.ts';
import type { ForwardState as DurableState, RefusedReading } from './forwardState.ts';
import type { JournalGauge } from './journalGauge.ts';
import { createProgress } from './progress.ts';
import { createStanding } from './standing.ts';
import { diskStatus, type ForwardStatus } from './status.ts';
import { createBell, defaultWaits, type Waits, waitAfter } from './waits.ts';

/** Readings in one request at most: some 200 kB of lines, made in a few milliseconds between which others have their turn. */
const largestBatch = 2_000;
const smallestBatch = 100;

export interface ForwarderOptions {
  /** The local store, which was committed first and is the truth. */
  readonly journal: Pick<SeriesStore, 'since'>;
  readonly gauge: JournalGauge;
  readonly state: DurableState;
  readonly archive: Archive;
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
  /** Bytes the local store may use; null = no bound. */
  readonly limitBytes: number | null;
  readonly waits?: Partial<Waits>;
  /** Chance, 0..1; a test gives its own. */
  readonly random?: () => number;
  /** Runs before the first write of all, and again until it succeeds. */
  readonly beforeFirstWrite?: () => Promise<void>;
}

export interface Forwarder {
  /** There is something new in the local store. */
  nudge(): void;
  status(): ForwardStatus;
  /** The newest readings that were refused one by one. */
  refused(limit: number): RefusedReading[];
  /** Sequence up to which the local store may let go. */
  forwardedSequence(): number;
  /** Ends after the write under way, which is broken off; the next start goes on from the cursor. */
  stop(): Promise<void>;
}

/**
 * Drains the local store into the archive in order of storing. The cursor moves only over a batch the archive said it has
 * written; a batch of unknown fate is sent again, which changes nothing there. It never takes part in storing: however
 * long the archive is away, readings are committed and judged as always.
 */
export function startForwarder(options: ForwarderOptions): Forwarder {
  const { journal, gauge, state, archive, clock, logger, random = Math.random } = options;
  const waits = { ...defaultWaits, ...options.waits };
  const stopping = new AbortController();
  const bell = createBell(stopping.signal);
  const progress = createProgress(logger, archive.place);
  const standing = createStanding(clock, logger);
  let cursor = state.mark('forwarded') ?? 0;
  let batchSize = largestBatch;
  let prepared = false;

  async function run(): Promise<void> {
    while (!stopping.signal.aborted) {
      try {
        if (!prepared) await prepare();
        await forwardOne();
      } catch (error) {
        if (stopping.signal.aborted) return;
        standing.failed(error);
        if (error instanceof ArchiveFault && error.tookTooLong) {
          batchSize = Math.max(smallestBatch, Math.floor(batchSize / 4));
        }
        await bell.wait(waitAfter(error, standing.failures(), random(), waits), false);
      }
    }
  }

  /** A cursor that belongs to another local store than the one that is here would pass over what is new. */
  async function prepare(): Promise<void> {
    if (cursor > 0) {
      const [atCursor] = await journal.since(cursor - 1, 1);
      const isOther = atCursor?.sequence === cursor && state.isForeign(atCursor);
      if (isOther || gauge.lastSequence() < cursor) {
        logger.warn('the local store is not the one that was forwarded from: everything in it is sent again');
        await state.reset(clock.nowMs());
        cursor = 0;
      }
    }
    await options.beforeFirstWrite?.();
    prepared = true;
  }

  async function forwardOne(): Promise<void> {
    const batch = await journal.since(cursor, batchSize);
    const last = batch.at(-1);
    if (last === undefined) {
      drained();
      return bell.wait(waits.lookMs, true);
    }
    const isAll = batch.length < batchSize;
    const { refused, beyondRetention } = await deliver(archive, batch, stopping.signal);
    const nowMs = clock.nowMs();
    await state.advance(
      last,
      nowMs,
      refused.map((item) => refusedReading(item, nowMs)),
    );
    cursor = last.sequence;
    batchSize = Math.min(largestBatch, batchSize * 2);
    standing.wrote(batch.length - refused.length - beyondRetention, refused, beyondRetention);
    progress.wrote(batch.length, gauge.lastSequence() - cursor);
    if (!isAll) return;
    drained();
    await bell.wait(waits.gatherMs, false);
  }

  function drained(): void {
    progress.caughtUp();
    standing.caughtUp();
  }

  const running = run();
  return {
    nudge: () => bell.ring(),
    status: () => ({
      ...standing.now(gauge.lastSequence() - cursor, state.mark('forwarded-at-ms')),
      forwardedSequence: cursor,
      refused: state.mark('refused') ?? 0,
      pace: progress.pace(gauge.lastSequence() - cursor),
      disk: diskStatus(gauge.usedBytes(), options.limitBytes),
    }),
    refused: (limit) => state.refused(limit),
    forwardedSequence: () => cursor,
    async stop() {
      stopping.abort();
      await running;
    },
  };
}

function refusedReading(
  { reading, answer }: { reading: StoredReading; answer: string },
  refusedAtMs: number,
): RefusedReading {
  const { sequence, channel, timeMs, value } = reading;
  return { sequence, channel, timeMs, value, answer, refusedAtMs };
}
