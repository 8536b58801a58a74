import type { Sample } from '../../readings/reading.ts';
import { median } from '../../statistics/median.ts';
import { dayMs, highestOf, hourMs, lowestOf, within } from './samples.ts';

/** The air must swing at least this far in a day before a core can be said to follow it (judgement). */
const leastAirSwing = 4;

/**
 * Daily swing of the core over that of the air, median of the last three days, each freed of its own drift so that a
 * core that merely cools does not seem to swing. Null when a day is thinly measured or the air hardly swings.
 */
export function swingShare(core: readonly Sample[], air: readonly Sample[], nowMs: number): number | null {
  const shares = [0, 1, 2].flatMap((day) => {
    const [fromMs, toMs] = [nowMs - (day + 1) * dayMs, nowMs - day * dayMs];
    const [coreSwing, airSwing] = [swing(within(core, fromMs, toMs)), swing(within(air, fromMs, toMs))];
    return coreSwing === null || airSwing === null || airSwing < leastAirSwing ? [] : [coreSwing / airSwing];
  });
  return shares.length < 2 ? null : median(shares);
}

function swing(day: readonly Sample[]): number | null {
  const [first, last] = [day[0], day.at(-1)];
  if (first === undefined || last === undefined || day.length < 12) return null;
  const slope = (last.value - first.value) / Math.max(1, last.timeMs - first.timeMs);
  const level = day.map(({ timeMs, value }) => ({ timeMs, value: value - slope * (timeMs - first.timeMs) }));
  return highestOf(level)! - lowestOf(level)!;
}

/** Steepest fall between neighbouring samples of the last five days, C per hour; stretches to be left out are given. */
export function steepestFall(
  core: readonly Sample[],
  nowMs: number,
  isLeftOut: (timeMs: number) => boolean,
): number | null {
  const recent = within(core, nowMs - 5 * dayMs, nowMs);
  const falls = recent.slice(1).flatMap((sample, index) => {
    const before = recent[index]!;
    const hours = (sample.timeMs - before.timeMs) / hourMs;
    return hours > 3 || isLeftOut(sample.timeMs) ? [] : [(before.value - sample.value) / Math.max(1, hours)];
  });
  return falls.length < 24 ? null : Math.max(0, ...falls);
}
