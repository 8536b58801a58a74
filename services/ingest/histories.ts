import { countBefore } from '../../shared/readings/qualityContext.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import type { ChannelName } from '../../shared/yard/yard.ts';
import type { SeriesStore } from '../series/port.ts';

const hourMs = 3_600_000;
/** Judging looks back at most this far: six hours for a stuck sensor, plus room. */
const reachMs = 8 * hourMs;
const mostReadings = 2_000;

/** Readings of one channel around some stretch of time. */
export interface History {
  /** In time order. */
  readonly readings: Reading[];
  /** A reading from here on can be judged by `readings`; one before cannot. */
  usableFromMs: number;
  readonly usableToMs: number;
}

/** Recent readings of channels, in memory, so that judging a reading asks the store nothing. */
export interface Histories {
  /**
   * Readings around a stretch of time. They are read from the store when they are not in memory: on first sight after a
   * start, so that a restart judges alike, and for readings that come many hours late.
   */
  around(channel: ChannelName, span: TimeSpan, nowMs: number): Promise<History>;
  /**
   * Takes in what other processes have stored since the last time, so that a reading is judged against all that was
   * stored before it, whoever took it. Does nothing where nobody else stores; never rejects.
   */
  catchUp(): Promise<void>;
  /** Forgets everything: after a storage fault memory holds readings that were never stored. */
  clear(): void;
}

export interface TimeSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

export interface HistoriesOptions {
  readonly series: Pick<SeriesStore, 'range' | 'since' | 'append'>;
  /** Other processes store into the same series as well. */
  readonly storedByOthers?: boolean;
  /** Resolves when no commit is under way, so that what is read from the store holds all that was judged before. */
  readonly settled: () => Promise<void>;
  /** Bounds the memory; the channel unused longest is forgotten first. */
  readonly mostChannels?: number;
}

interface Slot {
  readonly live: History;
  late: History | null;
}

export function createHistories(options: HistoriesOptions): Histories {
  const { series, settled, mostChannels = 5_000 } = options;
  const slots = new Map<ChannelName, Slot>();

  async function load(channel: ChannelName, usable: TimeSpan): Promise<History> {
    await settled();
    const fromMs = usable.fromMs - reachMs;
    const toMs = Math.min(usable.toMs + reachMs, Number.MAX_SAFE_INTEGER);
    const readings = await series.range({ channel, fromMs, toMs, quality: 'all' });
    return { readings, usableFromMs: usable.fromMs, usableToMs: usable.toMs };
  }

  async function slotOf(channel: ChannelName, nowMs: number): Promise<Slot> {
    const known = slots.get(channel);
    const slot = known ?? {
      live: await load(channel, { fromMs: nowMs - reachMs, toMs: Number.MAX_SAFE_INTEGER }),
      late: null,
    };
    slots.delete(channel);
    slots.set(channel, slot);
    if (slots.size > mostChannels) slots.delete(slots.keys().next().value!);
    return slot;
  }

  const followed = createFollower(series);

  return {
    async catchUp() {
      if (options.storedByOthers !== true) return;
      const news = await followed();
      if (news === null) return slots.clear();
      for (const reading of news) {
        const slot = slots.get(reading.channel);
        if (slot === undefined || readingAt(slot.live, reading.timeMs) !== null) continue;
        addToHistory(slot.live, reading);
        slot.late = null;
      }
    },
    async around(channel, span, nowMs) {
      const slot = await slotOf(channel, nowMs);
      if (holds(slot.live, span)) return slot.live;
      // Readings that come late come forward in time, message after message: loaded ahead for the next ones.
      const ahead = { fromMs: span.fromMs, toMs: span.toMs + reachMs };
      if (slot.late === null || !holds(slot.late, span)) slot.late = await load(channel, ahead);
      return slot.late;
    },
    clear: () => slots.clear(),
  };
}

/** Most that is read to come up to the others; beyond it, starting from the store again is less work. */
const mostFollowed = 20_000;
const followedAtOnce = 4_000;

/** What was stored since the last call; null when that is unknown or too much, and memory should begin anew. */
function createFollower(
  series: Pick<SeriesStore, 'since' | 'append'>,
): () => Promise<readonly Reading[] | null> {
  let cursor: number | null = null;
  return async () => {
    try {
      if (cursor !== null) {
        const news: Reading[] = [];
        while (news.length < mostFollowed) {
          const some = await series.since(cursor, followedAtOnce);
          news.push(...some);
          cursor = some.at(-1)?.sequence ?? cursor;
          if (some.length < followedAtOnce) return news;
        }
      }
      cursor = (await series.append([])).lastSequence;
    } catch {
      // The store is away: storing will say so, to the senders as well.
      cursor = null;
    }
    return null;
  };
}

function holds(history: History, { fromMs, toMs }: TimeSpan): boolean {
  return fromMs >= history.usableFromMs && toMs <= history.usableToMs;
}

/** The reading a history already has at that time, which makes a new one a duplicate; null when it has none. */
export function readingAt(history: History, timeMs: number): Reading | null {
  const found = history.readings[countBefore(history.readings, timeMs)];
  return found?.timeMs === timeMs ? found : null;
}

/** Adds a judged reading. What is far back is dropped in large pieces, because moving an array costs its length. */
export function addToHistory(history: History, reading: Reading): void {
  const { readings } = history;
  readings.splice(countBefore(readings, reading.timeMs), 0, reading);
  if (readings.length < mostReadings * 1.5) return;
  readings.splice(0, readings.length - mostReadings);
  history.usableFromMs = Math.max(history.usableFromMs, readings[0]!.timeMs);
}
