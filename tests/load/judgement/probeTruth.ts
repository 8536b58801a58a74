import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import { stepMinutes } from './playStory.ts';
import type { StoryFault } from './storySpec.ts';
import type { Answer, PlayedStory, TruthOf } from './truth.ts';

const rowsPerDay = (24 * 60) / stepMinutes;
const rowsPerHour = 60 / stepMinutes;

type FaultOf<K extends StoryFault['kind']> = Extract<StoryFault, { kind: K }>;

function faultOf<K extends StoryFault['kind']>({ spec }: PlayedStory, kind: K): FaultOf<K> | undefined {
  return spec.faults.find((fault): fault is FaultOf<K> => fault.kind === kind);
}

/** Rows answered by days after building. */
function byDays(story: PlayedStory, answer: (days: number, row: number) => Answer): Int8Array {
  return Int8Array.from({ length: story.course.length }, (_, row) => answer(row / rowsPerDay, row));
}

const silent: TruthOf = (story) => {
  const fault = faultOf(story, 'silent');
  const outage = faultOf(story, 'power-on');
  const rows = byDays(story, (days) => {
    if (fault !== undefined && days >= fault.fromDay && days < fault.toDay) return 1;
    const inOutage = outage !== undefined && days >= outage.atDay && days < outage.atDay + 0.1;
    return inOutage ? -1 : 0;
  });
  return { rows, leastHours: 3, earlyHours: 0, lateHours: 3 };
};

/**
 * Cold water nobody wrote down makes a core fall faster than any pile cools by itself (5 C in ten minutes; house plan,
 * section 5, has that in five). From the readings alone nobody could tell it from a failing sensor: for six hours people
 * may differ.
 */
function plunges({ course }: PlayedStory): Int8Array {
  const rows = new Int8Array(course.length);
  const written = course.done
    .filter(({ logged }) => logged)
    .map(({ action }) => action.atSeconds / 60 / stepMinutes);
  for (let row = 1; row < course.length; row += 1) {
    const fell = (column: Float32Array): boolean => column[row - 1]! - column[row]! > 5;
    if (!fell(course.coreCelsius) && !fell(course.shoulderCelsius)) continue;
    if (written.some((at) => at <= row && row - at <= 6 * rowsPerHour)) continue;
    rows.fill(1, row, row + 6 * rowsPerHour);
  }
  return rows;
}

const badValues: TruthOf = (story) => {
  const fault = faultOf(story, 'dies');
  const outage = faultOf(story, 'power-on');
  const plunged = plunges(story);
  const rows = byDays(story, (days, row) => {
    if (fault !== undefined && days >= fault.fromDay) return 1;
    if (plunged[row] === 1) return -1;
    return outage !== undefined && days >= outage.atDay && days < outage.atDay + 0.1 ? -1 : 0;
  });
  return { rows, leastHours: 2, earlyHours: 0, lateHours: 3 };
};

/** A core that says the same for ever can only be told from a steady pile while the pile really moves. */
const stuck: TruthOf = (story) => {
  const fault = faultOf(story, 'stuck');
  const { coreCelsius, shoulderCelsius } = story.course;
  const moves = (row: number): boolean => {
    const from = Math.max(0, row - 12 * rowsPerHour);
    return [coreCelsius, shoulderCelsius].every((column) => spread(column.subarray(from, row + 1)) >= 3);
  };
  const rows = byDays(story, (days, row) => {
    if (fault === undefined || days < fault.fromDay) return 0;
    return days > fault.fromDay + 0.5 && moves(row) ? 1 : -1;
  });
  return { rows, leastHours: 3, earlyHours: 6, lateHours: 24 };
};

function spread(values: Float32Array): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return most - least;
}

/** Two sensors at one spot that read ever further apart. A stuck or dead one comes to disagree as well. */
const disagreeing: TruthOf = (story) => {
  if (!story.spec.sensors.secondCore || !story.spec.sensors.paired) return null;
  const drifting = faultOf(story, 'drifts');
  const other = faultOf(story, 'stuck');
  const rows = byDays(story, (days) => {
    if (other !== undefined && days >= other.fromDay) return -1;
    if (drifting === undefined) return 0;
    const off = Math.max(0, days - drifting.fromDay) * Math.abs(drifting.perDay);
    if (off >= 6) return 1;
    return off > 1 ? -1 : 0;
  });
  return { rows, leastHours: 12, earlyHours: 24, lateHours: 24 };
};

const batteryLow: TruthOf = (story) => {
  const fault = faultOf(story, 'battery');
  const rows = byDays(story, (days) => {
    const spent = fault === undefined ? 0 : Math.max(0, days - fault.fromDay) * fault.perDay;
    const left = 0.95 - days * 0.002 - spent;
    if (left <= 0.1) return 1;
    return left < 0.35 ? -1 : 0;
  });
  return { rows, leastHours: 12, earlyHours: 12, lateHours: 24 };
};

/** Ground truth of the probe conditions: what the story did to its probes. */
export const probeTruths: Readonly<Partial<Record<ConditionId, TruthOf>>> = {
  'probe-silent': silent,
  'probe-bad-values': badValues,
  'probe-stuck': stuck,
  'probe-disagreeing': disagreeing,
  'probe-battery-low': batteryLow,
};
