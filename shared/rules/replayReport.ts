import { type ConditionId, type Priority, priorities } from '../alarms/alarm.ts';
import type { ReplayResult } from './replay.ts';
import { minutesOf, type ReplayAlarm } from './replayAlarms.ts';
import type { ReplayText } from './replayTexts.ts';
import type { Trouble } from './replayTroubles.ts';

/** The part of a replay that is counted; what was judged before it only set the stage. */
export interface Counted {
  readonly fromMs: number;
  readonly toMs: number;
  /** Least pressing priority that is texted; the others are seen on screens. */
  readonly textsFrom: Priority;
}

export interface ConditionCount {
  readonly condition: ConditionId;
  readonly alarms: number;
  readonly texts: number;
  readonly longestMinutes: number;
  readonly totalMinutes: number;
}

/** How a set of limits did before one trouble. */
export interface Warning {
  readonly trouble: Trouble;
  /** Minutes from the first warning to the trouble's start; negative when it came after; null: never warned. */
  readonly minutesBefore: number | null;
  readonly by: ConditionId | null;
}

export interface ReplayReport {
  readonly limitsVersion: number;
  readonly alarms: readonly ReplayAlarm[];
  readonly texts: readonly ReplayText[];
  readonly textsPerWeek: number;
  readonly conditions: readonly ConditionCount[];
  readonly warnings: readonly Warning[];
  /** Troubles nothing warned of. */
  readonly missed: number;
}

/** Nobody is warned longer before than this (our choice). */
const furthestWarningMs = 3 * 86_400_000;
/** An alarm that had gone for longer than this when the trouble began was about something else (our choice). */
const goneBeforeMs = 12 * 3_600_000;

/** What a person wants to know of a replay: how many, when, how long, how many texts, which troubles it warned of. */
export function reportOf(result: ReplayResult, troubles: readonly Trouble[], counted: Counted): ReplayReport {
  const inside = (atMs: number): boolean => atMs >= counted.fromMs && atMs < counted.toMs;
  const alarms = result.alarms.filter((alarm) => alarm.shown && inside(alarm.startMs));
  const texts = result.texts.filter(
    (text) => inside(text.atMs) && priorities.indexOf(text.priority) <= priorities.indexOf(counted.textsFrom),
  );
  const known = troubles.filter((trouble) => inside(trouble.startMs));
  const warnings = known.map((trouble) => warningOf(result, trouble));
  const weeks = (counted.toMs - counted.fromMs) / (7 * 86_400_000);
  return {
    limitsVersion: result.limitsVersion,
    alarms,
    texts,
    textsPerWeek: weeks > 0 ? texts.length / weeks : 0,
    conditions: countsOf(alarms, texts, result.toMs),
    warnings,
    missed: warnings.filter((warning) => warning.minutesBefore === null).length,
  };
}

function countsOf(
  alarms: readonly ReplayAlarm[],
  texts: readonly ReplayText[],
  toMs: number,
): ConditionCount[] {
  return [...Map.groupBy(alarms, ({ condition }) => condition)].map(([condition, own]) => {
    const lengths = own.map((alarm) => minutesOf(alarm, toMs));
    return {
      condition,
      alarms: own.length,
      texts: texts.filter((text) => text.condition === condition).length,
      longestMinutes: Math.max(...lengths),
      totalMinutes: lengths.reduce((sum, minutes) => sum + minutes, 0),
    };
  });
}

/** The first alarm about it that stood, or had only just gone, when it began, or came while it lasted. */
export function warningOf({ alarms }: Pick<ReplayResult, 'alarms'>, trouble: Trouble): Warning {
  const first = alarms.find(
    ({ condition, shown, startMs, endMs }) =>
      shown &&
      trouble.warnedBy.includes(condition) &&
      startMs <= trouble.endMs &&
      (endMs ?? Number.POSITIVE_INFINITY) >= trouble.startMs - goneBeforeMs,
  );
  if (first === undefined) return { trouble, minutesBefore: null, by: null };
  // One that had long stood warns no earlier than the furthest a warning counts.
  const fromMs = Math.max(first.startMs, trouble.startMs - furthestWarningMs);
  return { trouble, minutesBefore: (trouble.startMs - fromMs) / 60_000, by: first.condition };
}

/** One set of limits against another over the same past. */
export interface ReplayComparison {
  /** Texts more (or, negative, fewer) than the other set's. */
  readonly textsMore: number;
  readonly alarmsMore: number;
  /** Alarms only one of the two raises: no alarm of the same condition overlaps it in the other. */
  readonly come: readonly ReplayAlarm[];
  readonly gone: readonly ReplayAlarm[];
  /** Minutes of warning won (or, negative, lost) before each trouble both warn of. */
  readonly warningMinutesWon: readonly { readonly trouble: Trouble; readonly minutes: number }[];
  /** Troubles the other set warns of and this one does not: what would have been missed. */
  readonly newlyMissed: readonly Trouble[];
  readonly newlyCaught: readonly Trouble[];
}

/** Compares a candidate's report with another's: both of the same past, troubles and counted stretch. */
export function compareReports(candidate: ReplayReport, other: ReplayReport): ReplayComparison {
  const pairs = candidate.warnings.map((mine, index) => ({ mine, theirs: other.warnings[index]! }));
  const troublesWhere = (test: (mine: number | null, theirs: number | null) => boolean): Trouble[] =>
    pairs
      .filter(({ mine, theirs }) => test(mine.minutesBefore, theirs.minutesBefore))
      .map(({ mine }) => mine.trouble);
  return {
    textsMore: candidate.texts.length - other.texts.length,
    alarmsMore: candidate.alarms.length - other.alarms.length,
    come: onlyIn(candidate.alarms, other.alarms),
    gone: onlyIn(other.alarms, candidate.alarms),
    warningMinutesWon: pairs.flatMap(({ mine, theirs }) =>
      mine.minutesBefore === null || theirs.minutesBefore === null
        ? []
        : [{ trouble: mine.trouble, minutes: mine.minutesBefore - theirs.minutesBefore }],
    ),
    newlyMissed: troublesWhere((mine, theirs) => mine === null && theirs !== null),
    newlyCaught: troublesWhere((mine, theirs) => mine !== null && theirs === null),
  };
}

function onlyIn(these: readonly ReplayAlarm[], those: readonly ReplayAlarm[]): ReplayAlarm[] {
  const end = (alarm: ReplayAlarm): number => alarm.endMs ?? Number.POSITIVE_INFINITY;
  return these.filter(
    (one) =>
      !those.some(
        (other) =>
          other.condition === one.condition && other.startMs <= end(one) && end(other) >= one.startMs,
      ),
  );
}
