import type { Sample } from '../../readings/reading.ts';
import type { ChannelName } from '../../yard/yard.ts';

/** One core channel of the pile, `good` samples only, in time order. */
export interface CoreChannel {
  readonly channel: ChannelName;
  readonly samples: readonly Sample[];
}

/** The core on an even grid; `celsius` null where no core channel spoke. */
export interface CoursePoint {
  readonly timeMs: number;
  readonly celsius: number | null;
  /** True when the hottest channel is silent and its last known lead over the others is carried along. */
  readonly carried: boolean;
}

export interface CourseWindow {
  readonly fromMs: number;
  readonly toMs: number;
  readonly stepMs: number;
}

/**
 * One line for the core: the hottest channel of each step. When the hottest falls silent the others carry on from its
 * level (its last lead is added), so a probe dying in a hot pile makes no step; when all are silent it is unknown.
 * For judging the course only: alarms about heat look at the channels themselves.
 */
export function coreCourse(channels: readonly CoreChannel[], window: CourseWindow): CoursePoint[] {
  const columns = channels.map((one) => stepMeans(one.samples, window));
  const steps = Math.max(0, Math.ceil((window.toMs - window.fromMs) / window.stepMs));
  const points: CoursePoint[] = [];
  const line = createCourseLine(channels.length);
  for (let step = 0; step < steps; step++) {
    const now = columns.map((column) => column[step] ?? null);
    points.push({ timeMs: window.fromMs + step * window.stepMs, ...stepCourseLine(line, now) });
  }
  return points;
}

/** Where the one line for the core stands, step by step; changed in place. */
export interface CourseLine {
  before: readonly (number | null)[];
  lead: Lead;
}

/** A line over so many core channels of which nothing has been heard. */
export function createCourseLine(channelCount: number): CourseLine {
  return { before: new Array<number | null>(channelCount).fill(null), lead: none };
}

/** Takes the next step: what each channel said in it, null where it was silent. */
export function stepCourseLine(
  line: CourseLine,
  now: readonly (number | null)[],
): Pick<CoursePoint, 'celsius' | 'carried'> {
  line.lead = nextLead(line.before, now, line.lead);
  const hottest = highest(now);
  if (hottest !== null) line.before = now;
  return { celsius: hottest === null ? null : hottest + line.lead.celsius, carried: line.lead.celsius > 0 };
}

/** How far above the hottest speaking channel the core is taken to be, and the silent channels that said so. */
export interface Lead {
  readonly celsius: number;
  readonly owners: readonly number[];
}

const none: Lead = { celsius: 0, owners: [] };

function nextLead(before: readonly (number | null)[], now: readonly (number | null)[], lead: Lead): Lead {
  const [hottestBefore, hottestNow] = [highest(before), highest(now)];
  if (hottestBefore === null || hottestNow === null) return lead;
  const stayed = before.map((value, index) => (now[index] === null ? null : value));
  const stayedBefore = highest(stayed);
  const joined = now.flatMap((value, index) => (value !== null && before[index] === null ? [index] : []));
  // Nobody can vouch across the change, or the channel whose lead was carried speaks for itself again.
  if (stayedBefore === null || joined.some((index) => lead.owners.includes(index))) return none;
  const fell = hottestBefore - stayedBefore;
  const owners = fell > 0 ? [...lead.owners, before.indexOf(hottestBefore)] : lead.owners;
  const carried = lead.celsius + fell;
  const stayedNow = highest(now.map((value, index) => (before[index] === null ? null : value)))!;
  const takesOver = joined.some((index) => now[index]! >= stayedNow + carried - rejoinWithinCelsius);
  return takesOver ? none : { celsius: carried, owners };
}

/** A new channel this close under the carried level, or above it, takes over from the carried lead (ours). */
const rejoinWithinCelsius = 2;

function highest(values: readonly (number | null)[]): number | null {
  return values.reduce((top, value) => (value !== null && (top === null || value > top) ? value : top), null);
}

/** Mean of the samples of each step; undefined where there were none. */
function stepMeans(samples: readonly Sample[], window: CourseWindow): (number | undefined)[] {
  const sums: { total: number; count: number }[] = [];
  for (const { timeMs, value } of samples) {
    if (timeMs < window.fromMs || timeMs >= window.toMs) continue;
    const step = Math.floor((timeMs - window.fromMs) / window.stepMs);
    sums[step] ??= { total: 0, count: 0 };
    sums[step].total += value;
    sums[step].count += 1;
  }
  return sums.map((sum) => sum.total / sum.count);
}
