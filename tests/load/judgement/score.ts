import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type { ReplayAlarm } from '../../../shared/rules/replayAlarms.ts';
import { type Judged, judgeStory } from './judgeStory.ts';
import { playStory, stepMinutes } from './playStory.ts';
import type { StorySpec } from './storySpec.ts';
import { builtMs, dayMs, hourMs, type Interval, minuteMs, touches } from './storyTimes.ts';
import { type ToldStory, tellStory } from './tellStory.ts';
import { type PlayedStory, type Truth, truths } from './truth.ts';

export interface ConditionScore {
  readonly condition: ConditionId;
  /** Stories in which the question could be asked. */
  readonly asked: number;
  readonly episodes: number;
  readonly found: number;
  readonly alarms: number;
  readonly right: number;
  readonly arguable: number;
  /** Hours from alarm to what each episode is about (`Truth.harmAtEnd`); negative when it came after. */
  readonly warningHours: readonly number[];
  /** Stories of episodes that were not found, and of alarms about nothing: where to look. */
  readonly missedIn: readonly string[];
  readonly wrongIn: readonly string[];
}

/** One story played, told and judged, with the truth beside it. */
export interface ScoredStory extends PlayedStory {
  readonly told: ToldStory;
  readonly judged: Judged;
  /** Nothing was wrong with pile or probes by any condition that is texted. */
  readonly healthy: boolean;
}

/** Plays, tells and judges one story. */
export function scoreStory(spec: StorySpec): ScoredStory {
  const course = playStory(spec);
  const told = tellStory(spec, course);
  const judged = judgeStory(told);
  return { spec, course, told, judged, healthy: isHealthy({ spec, course }) };
}

/** Near the ceiling is a notice on the wall, not a trouble; neither is being on the way to something that came. */
const notTroubles: readonly string[] = ['too-hot-early-notice', 'too-hot-heading-there'];

function isHealthy(story: PlayedStory): boolean {
  return Object.entries(truths).every(([condition, truthOf]) => {
    if (notTroubles.includes(condition)) return true;
    const truth = truthOf?.(story) ?? null;
    return truth === null || episodesOf(truth).length === 0;
  });
}

/** Stretches in which it held long enough; short doubts do not part them. */
export function episodesOf(truth: Truth): Interval[] {
  const episodes: Interval[] = [];
  const rowMs = stepMinutes * minuteMs;
  let from: number | null = null;
  let last = 0;
  const close = (): void => {
    if (from !== null && (last - from + 1) * rowMs >= truth.leastHours * hourMs)
      episodes.push({ fromMs: builtMs + from * rowMs, toMs: builtMs + (last + 1) * rowMs });
    from = null;
  };
  truth.rows.forEach((answer, row) => {
    if (answer === 1) {
      from ??= row;
      last = row;
    } else if (answer === 0) close();
  });
  close();
  return episodes;
}

/** How one condition did over all stories. */
export function scoreCondition(condition: ConditionId, stories: readonly ScoredStory[]): ConditionScore {
  const parts = stories.flatMap((story) => {
    const truth = truths[condition]?.(story) ?? null;
    return truth === null ? [] : [scoreOne(condition, story, truth)];
  });
  const sum = (count: (part: OneScore) => number): number =>
    parts.reduce((total, part) => total + count(part), 0);
  return {
    condition,
    asked: parts.length,
    episodes: sum((part) => part.episodes),
    found: sum((part) => part.warningHours.length),
    alarms: sum((part) => part.alarms),
    right: sum((part) => part.right),
    arguable: sum((part) => part.arguable),
    warningHours: parts.flatMap((part) => part.warningHours),
    missedIn: parts.flatMap((part) => (part.episodes > part.warningHours.length ? [part.id] : [])),
    wrongIn: parts.flatMap((part) => (part.alarms > part.right + part.arguable ? [part.id] : [])),
  };
}

interface OneScore {
  readonly id: string;
  readonly episodes: number;
  readonly alarms: number;
  readonly right: number;
  readonly arguable: number;
  readonly warningHours: readonly number[];
}

function scoreOne(condition: ConditionId, { spec, judged, told }: ScoredStory, truth: Truth): OneScore {
  const episodes = episodesOf(truth);
  const alarms = judged.alarms.filter((alarm) => alarm.condition === condition);
  const span = (alarm: ReplayAlarm): Interval => ({
    fromMs: alarm.startMs,
    toMs: alarm.endMs ?? told.past.toMs,
  });
  const about = (alarm: ReplayAlarm, episode: Interval): boolean =>
    touches(span(alarm), {
      fromMs: episode.fromMs - truth.earlyHours * hourMs,
      toMs: episode.toMs + truth.lateHours * hourMs,
    });
  const right = alarms.filter((alarm) => episodes.some((episode) => about(alarm, episode)));
  const others = alarms.filter((alarm) => !right.includes(alarm));
  return {
    id: `${spec.id} ${spec.kind}`,
    episodes: episodes.length,
    alarms: alarms.length,
    right: right.length,
    arguable: others.filter((alarm) => isArguable(truth, span(alarm))).length,
    warningHours: episodes.flatMap((episode) => {
      const first = alarms.find((alarm) => about(alarm, episode));
      return first === undefined
        ? []
        : [((truth.harmAtEnd === true ? episode.toMs : episode.fromMs) - first.startMs) / hourMs];
    }),
  };
}

/** It came while people may differ, or while something true but too short to ask for it was going on. */
function isArguable({ rows, earlyHours, lateHours }: Truth, span: Interval): boolean {
  const rowMs = stepMinutes * minuteMs;
  const from = Math.max(0, Math.floor((span.fromMs - lateHours * hourMs - builtMs) / rowMs));
  const to = Math.ceil((span.fromMs + earlyHours * hourMs - builtMs) / rowMs);
  return rows.subarray(from, to + 1).some((answer) => answer !== 0);
}

/** Pile-months (of thirty days) in some stories. */
export function monthsOf(stories: readonly PlayedStory[]): number {
  return stories.reduce((sum, { spec }) => sum + spec.days, 0) / 30;
}

/** Texts a pile and month. */
export function textsPerMonth(stories: readonly ScoredStory[]): number {
  const texts = stories.reduce((sum, { judged }) => sum + judged.texts.length, 0);
  return stories.length === 0 ? 0 : texts / monthsOf(stories);
}

/** Days after building of an instant, for people who look into a story. */
export const dayOf = (timeMs: number): number => (timeMs - builtMs) / dayMs;
