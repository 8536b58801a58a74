import type { Archive } from '../archive.ts';
import type { ForwardState } from '../forward/forwardState.ts';
import type { RangeQuery, Retention, Rollup, RollupStep, SeriesStore, StoredReading } from '../port.ts';
import { thin } from '../sqlite/thinning.ts';

const dayMs = 86_400_000;

export interface InfluxSeriesParts {
  /** Takes every reading first, answers everything recent, and alone knows the order of storing. */
  readonly journal: SeriesStore;
  readonly archive: Archive;
  readonly state: ForwardState;
  /** Sequence up to which the local store may let go. */
  readonly forwardedSequence: () => number;
}

/**
 * One series store out of a local one and InfluxDB behind it. Who answers what:
 *
 * | question | answered by | because |
 * |---|---|---|
 * | append, duplicates, sequence | local store | InfluxDB overwrites a duplicate and knows no order of storing |
 * | since, latest, channels | local store | they are about what came just now, which InfluxDB gets a moment later |
 * | range | local store from `local-from-ms` on, InfluxDB before | the local store lets go of old raw readings |
 * | roll-ups | local store from `rollups-from-ms` on, InfluxDB before | local ones are kept for ever, unless the disk was replaced |
 * | trim | both | nothing goes locally that InfluxDB has not got |
 *
 * A question that needs InfluxDB rejects with ArchiveFault while it is away, rather than answer with half the past.
 */
export function createInfluxSeries({
  journal,
  archive,
  state,
  forwardedSequence,
}: InfluxSeriesParts): SeriesStore {
  const mark = (name: 'local-from-ms' | 'rollups-from-ms' | 'removed-before-ms') =>
    state.mark(name) ?? Number.MIN_SAFE_INTEGER;

  async function range(query: RangeQuery): Promise<StoredReading[]> {
    await state.refresh?.();
    const fromMs = Math.max(query.fromMs, mark('removed-before-ms'));
    const splitMs = mark('local-from-ms');
    if (fromMs >= splitMs) return journal.range({ ...query, fromMs });
    const old = await archive.range({ ...query, fromMs, toMs: Math.min(query.toMs, splitMs) });
    if (query.toMs <= splitMs) return old;
    return joined(old, await journal.range({ ...query, fromMs: splitMs }), query.maxPoints);
  }

  async function rollups(channel: string, step: RollupStep, fromMs: number, toMs: number): Promise<Rollup[]> {
    await state.refresh?.();
    // Raw readings before `removed` are gone everywhere; of those hours and days only the local roll-ups tell.
    const removed = mark('removed-before-ms');
    const whole = Math.max(removed, mark('rollups-from-ms'));
    const local = (from: number, to: number) => (from < to ? journal.rollups(channel, step, from, to) : []);
    const [middleFrom, middleTo] = [Math.max(fromMs, removed), Math.min(toMs, whole)];
    const parts = await Promise.all([
      local(fromMs, Math.min(toMs, removed)),
      middleFrom < middleTo ? archive.rollups(channel, step, middleFrom, middleTo) : [],
      local(Math.max(fromMs, whole), toMs),
    ]);
    return parts.flat();
  }

  async function trim(retention: Retention, nowMs: number): Promise<number> {
    const { rawDays } = retention;
    if (rawDays === null) return 0;
    const beforeMs = nowMs - rawDays * dayMs;
    // First said, then done: from here on nobody is answered with what is about to go.
    for (const name of ['removed-before-ms', 'local-from-ms'] as const) {
      await state.setMark(name, Math.max(mark(name), beforeMs));
    }
    await journal.trim({ ...retention, upToSequence: forwardedSequence() }, nowMs);
    return archive.removeBefore(await journal.channels(), beforeMs);
  }

  return { ...journal, range, rollups, trim };
}

/** Both parts were thinned by themselves and kept their extremes; thinned together they still do. */
function joined(
  old: StoredReading[],
  recent: StoredReading[],
  maxPoints: number | undefined,
): StoredReading[] {
  const all = [...old, ...recent];
  const [first, last] = [all[0], all.at(-1)];
  if (maxPoints === undefined || all.length <= maxPoints || !first || !last) return all;
  return thin(all, { firstMs: first.timeMs, lastMs: last.timeMs }, maxPoints);
}
