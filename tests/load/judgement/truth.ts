import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import { stepMinutes, type TrueCourse } from './playStory.ts';
import { probeTruths } from './probeTruth.ts';
import type { StorySpec } from './storySpec.ts';

/** One row's answer: it holds, it does not, or two sensible people could differ. */
export type Answer = 1 | 0 | -1;

/** What is really true of a story, row by row (ten minutes), by what the simulated pile was like; no rule is asked. */
export interface Truth {
  readonly rows: Int8Array;
  /** Shorter stretches do not ask for an alarm. */
  readonly leastHours: number;
  /** An alarm this long before its beginning is still about it. */
  readonly earlyHours: number;
  /** And this long after it: probes answer late, delays run, and an alarm may stay until somebody has looked. */
  readonly lateHours: number;
  /** Warning counts back from the end of a stretch rather than its beginning: what was foretold comes then. */
  readonly harmAtEnd?: boolean;
}

export interface PlayedStory {
  readonly spec: StorySpec;
  readonly course: TrueCourse;
}

/** Null where the condition says nothing of this story: another method, no such sensor. */
export type TruthOf = (story: PlayedStory) => Truth | null;

const rowsPerHour = 60 / stepMinutes;
const rowsPerDay = 24 * rowsPerHour;

const heatingMethods: readonly PileMethod[] = [
  'static-cage',
  'hot-bin',
  'turned-windrow',
  'aerated-static-pile',
];
const heats = ({ spec }: PlayedStory): boolean => heatingMethods.includes(spec.method);

/** Rows answered one by one by a rule that may remember. */
function answered(story: PlayedStory, answer: (row: number) => Answer): Int8Array {
  const rows = new Int8Array(story.course.length);
  for (let row = 0; row < rows.length; row += 1) rows[row] = answer(row);
  return rows;
}

/** Above a level, with room for argument on both sides of it. */
function above(value: number, from: number, to: number): Answer {
  if (value >= to) return 1;
  return value < from ? 0 : -1;
}

const hotterThan =
  (from: number, to: number, leastHours: number): TruthOf =>
  (story) => ({
    rows: answered(story, (row) => above(story.course.hottestCelsius[row]!, from, to)),
    leastHours,
    earlyHours: 6,
    lateHours: 6,
  });

/** At 80 C, or above 76 C and rising where living heat should be failing (house plan, section 6). */
const fireDanger: TruthOf = (story) => {
  const { hottestCelsius } = story.course;
  const rows = answered(story, (row) => {
    const celsius = hottestCelsius[row]!;
    const rising = celsius - hottestCelsius[Math.max(0, row - 6 * rowsPerHour)]! > 0.6;
    if (celsius >= 80.5 || (celsius >= 76.5 && rising)) return 1;
    return celsius >= 75 ? -1 : 0;
  });
  return { rows, leastHours: 1, earlyHours: 6, lateHours: 6 };
};

/** The hottest place comes up through 71 C: true for the twelve hours before and while it passes. */
const headingThere: TruthOf = (story) => {
  const { hottestCelsius, length } = story.course;
  const rows = answered(story, (row) => (hottestCelsius[row]! >= 68 ? -1 : 0));
  for (let row = 1; row < length; row += 1) {
    if (hottestCelsius[row]! < 71 || hottestCelsius[row - 1]! >= 71) continue;
    const before = hottestCelsius.subarray(Math.max(0, row - 12 * rowsPerHour), row);
    if (before.some((celsius) => celsius >= 71)) continue;
    for (let back = 1; back <= 24 * rowsPerHour && row - back >= 0; back += 1)
      rows[row - back] = back <= 12 * rowsPerHour ? 1 : -1;
    rows[row] = 1;
  }
  return { rows, leastHours: 0, earlyHours: 6, lateHours: 3, harmAtEnd: true };
};

/** House plan: past the record (three days at 55 C) and fourteen days more. Other methods have no agreed budget. */
const tooLong: TruthOf = (story) => {
  if (story.spec.method !== 'static-cage') return null;
  let hours = 0;
  const rows = answered(story, (row) => {
    if (story.course.coreCelsius[row]! >= 55) hours += 1 / rowsPerHour;
    const share = (hours - 72) / (14 * 24);
    return story.course.coreCelsius[row]! >= 54 ? above(share, 0.9, 1.05) : share >= 0.9 ? -1 : 0;
  });
  return { rows, leastHours: 12, earlyHours: 24, lateHours: 72 };
};

/** Four days after building (seven in frost) it has never come to 40 C, or never 10 C above the air. */
const neverHeated: TruthOf = (story) => {
  if (!heats(story)) return null;
  const { coreCelsius, airCelsius } = story.course;
  let peak = Number.NEGATIVE_INFINITY;
  let rise = Number.NEGATIVE_INFINITY;
  let air = 0;
  const rows = answered(story, (row) => {
    peak = Math.max(peak, coreCelsius[row]!);
    rise = Math.max(rise, coreCelsius[row]! - airCelsius[row]!);
    air += airCelsius[row]!;
    if (peak >= 41.5) return 0;
    const days = row / rowsPerDay;
    if (days < 4) return 0;
    if (days < 7 && air / (row + 1) < 2) return -1;
    return peak < 38.5 || rise < 8 ? 1 : -1;
  });
  return { rows, leastHours: 24, earlyHours: 2, lateHours: 24 };
};

/**
 * How complete the record of heat is, 0..1: three days at 55 C without a break, in a turned windrow fifteen days with
 * five turnings (United States rules, restated). The rules ask it of all the material, so of the coolest place that has a
 * probe: core and shoulder in every story. A static cage cannot bring that about; there it is the core's own record.
 */
function recordSoFar({ spec, course }: PlayedStory): (row: number) => number {
  const turnRows = course.done.flatMap(({ action }) =>
    action.kind === 'turn' ? [Math.ceil(action.atSeconds / 60 / stepMinutes)] : [],
  );
  const isWindrow = spec.method === 'turned-windrow';
  const isCage = spec.method === 'static-cage';
  let [run, longest, total, turns] = [0, 0, 0, 0];
  return (row) => {
    const { coreCelsius, shoulderCelsius } = course;
    const shoulder = isCage ? Number.POSITIVE_INFINITY : shoulderCelsius[row]!;
    const hot = Math.min(coreCelsius[row]!, shoulder) >= 55;
    run = hot ? run + 1 / rowsPerHour : 0;
    longest = Math.max(longest, run);
    if (hot) total += 1 / rowsPerHour;
    if (turnRows.includes(row) && total > 0) turns += 1;
    return isWindrow ? Math.min(total / 360, turns / 5) : longest / 72;
  };
}

/** It had been at 55 C and fell away for a day before the record was complete. Said once: true for the week after. */
const fellShort: TruthOf = (story) => {
  if (!heats(story)) return null;
  const { coreCelsius } = story.course;
  const record = recordSoFar(story);
  let hot = 0;
  let below = 0;
  const rows = answered(story, (row) => {
    const celsius = coreCelsius[row]!;
    const done = record(row);
    if (celsius >= 55) hot += 1 / rowsPerHour;
    below = celsius < 54 ? below + 1 / rowsPerHour : 0;
    if (hot < 3 || done > 1.1) return 0;
    if (done > 0.85) return -1;
    if (below === 0) return celsius < 55.5 ? -1 : 0;
    return below < 24 ? -1 : below < 24 + 168 ? 1 : -1;
  });
  return { rows, leastHours: 12, earlyHours: 24, lateHours: 24 };
};

/** Worms in danger above 30 C or in frost; curing and leaf heaps only in frost that goes to the core. */
const outOfRange: TruthOf = (story) => {
  const { method } = story.spec;
  const { coreCelsius } = story.course;
  if (method === 'worm-bed')
    return {
      rows: answered(story, (row) => {
        const celsius = coreCelsius[row]!;
        if (celsius > 30.5 || celsius < 3) return 1;
        return celsius > 25 || celsius < 12 ? -1 : 0;
      }),
      leastHours: 12,
      earlyHours: 24,
      lateHours: 24,
    };
  if (method !== 'curing-heap') return null;
  const rows = answered(story, (row) => above(-coreCelsius[row]!, -6, 0));
  return { rows, leastHours: 24, earlyHours: 24, lateHours: 24 };
};

/** House plan, section 6: hot work 45 %, cage and worm bed 60 %; a curing heap 40 % (ours). */
const driest: Readonly<Record<PileMethod, number>> = {
  'static-cage': 0.6,
  'hot-bin': 0.45,
  'turned-windrow': 0.45,
  'aerated-static-pile': 0.45,
  'worm-bed': 0.6,
  'curing-heap': 0.4,
  'leaf-heap': 0.45,
};

const dryMeasured: TruthOf = (story) => {
  if (!story.spec.sensors.moisture) return null;
  const limit = driest[story.spec.method];
  const moisture = story.course.shoulderMoistureFraction;
  // Within five points and on the way there is fair warning, even where somebody then waters in time.
  const rows = answered(story, (row) => above(-moisture[row]!, -(limit + 0.05), -(limit - 0.02)));
  return { rows, leastHours: 12, earlyHours: 72, lateHours: 24 };
};

/** Drying that heat did, where no probe measures it. One built too dry gives no sign a balance could read. */
const dryEstimated: TruthOf = (story) => {
  if (story.spec.sensors.moisture || !heats(story)) return null;
  const limit = driest[story.spec.method];
  if (story.spec.parameters.material.moistureFraction < limit) return null;
  const { coreMoistureFraction, shoulderMoistureFraction } = story.course;
  const inside = (row: number) => (coreMoistureFraction[row]! + shoulderMoistureFraction[row]!) / 2;
  const rows = answered(story, (row) => above(-inside(row), -(limit + 0.05), -(limit - 0.03)));
  return { rows, leastHours: 24, earlyHours: 72, lateHours: 72 };
};

/**
 * Wet and without air in the core, and the heat gone with it. One that never warmed is told by never-heated. Without a
 * moisture probe nobody can tell, so nothing is asked.
 */
const tooWet: TruthOf = (story) => {
  if (!story.spec.sensors.moisture || !heats(story)) return null;
  const { coreCelsius, coreOxygenFraction, shoulderMoistureFraction } = story.course;
  let peak = Number.NEGATIVE_INFINITY;
  const [from, to] = story.spec.method === 'static-cage' ? [0.74, 0.79] : [0.66, 0.72];
  const rows = answered(story, (row) => {
    const wet = above(shoulderMoistureFraction[row]!, from, to);
    peak = Math.max(peak, coreCelsius[row]!);
    if (wet !== 1) return wet;
    const choked = peak > 40 && coreCelsius[row]! < peak - 8 && coreOxygenFraction[row]! < 0.03;
    return choked ? 1 : -1;
  });
  return { rows, leastHours: 24, earlyHours: 24, lateHours: 48 };
};

/**
 * It was hot, has fallen below 38 C, and most of its quick food is still there: it did not finish, it stopped. Between
 * half and six tenths of the quick food left, people may differ. A static cage that has had its three to four hot days is
 * meant to cool, whatever is left (sanitation reference, section 6): from three on people may differ, from four it is no
 * stall.
 */
const stalled: TruthOf = (story) => {
  if (!heats(story)) return null;
  const { coreCelsius, quickLeftFraction } = story.course;
  const isCage = story.spec.method === 'static-cage';
  let [hotHours, sanitisingHours] = [0, 0];
  const rows = answered(story, (row) => {
    if (coreCelsius[row]! >= 45) hotHours += 1 / rowsPerHour;
    if (coreCelsius[row]! >= 55) sanitisingHours += 1 / rowsPerHour;
    if (hotHours < 6 || coreCelsius[row]! > 42) return 0;
    if (isCage && sanitisingHours >= 72) return sanitisingHours >= 96 ? 0 : -1;
    const food = above(quickLeftFraction[row]!, 0.5, 0.6);
    return coreCelsius[row]! > 38 && food === 1 ? -1 : food;
  });
  return { rows, leastHours: 24, earlyHours: 12, lateHours: 24 };
};

/** Ground truth of every condition a pile story can tell of. */
export const truths: Readonly<Partial<Record<ConditionId, TruthOf>>> = {
  'too-hot-ceiling': hotterThan(70, 71.7, 2),
  'too-hot-early-notice': hotterThan(64, 66.2, 3),
  'too-hot-heading-there': headingThere,
  'too-hot-fire-danger': fireDanger,
  'too-hot-too-long': tooLong,
  'too-cold-never-heated': neverHeated,
  'too-cold-fell-short': fellShort,
  'too-cold-range': outOfRange,
  'drying-out-measured': dryMeasured,
  'drying-out-estimated': dryEstimated,
  'too-wet': tooWet,
  stalled,
  ...probeTruths,
};

/** Conditions no pile story can tell of, and where they are held to account instead. */
export const notTold: Readonly<Partial<Record<ConditionId, string>>> = {
  'probe-clock-wrong': 'a story has one clock: tests of ingest and rules',
  'probe-calibration-due': 'a date, not a judgement: tests of rules',
  'service-broker-away': 'not a pile: tests of the services',
  'service-database-away': 'not a pile: tests of the services',
  'service-disk-low': 'not a pile: tests of the services',
  'service-messages-not-leaving': 'not a pile: tests of the services',
  'service-clock-step': 'not a pile: tests of the services',
};
