import { type AlarmSubject, type ConditionId, type Priority, priorities } from './alarm.ts';
import { actedUpon } from './reportActed.ts';
import { type ReportFigure, reportFigures } from './reportFigures.ts';
import type { ReportInput } from './reportInput.ts';
import { floodShare, type PersonLoad, personLoads } from './reportPeople.ts';
import {
  activationsByAlarm,
  chatterCount,
  type StandingStretch,
  staleCounts,
  standingStretches,
} from './reportStanding.ts';
import { staleAlarms } from './stale.ts';

/** One alarm's share of the trouble over the span. */
export interface AlarmLoad {
  readonly alarmId: string;
  readonly subject: AlarmSubject;
  readonly condition: ConditionId;
  readonly activations: number;
  readonly texts: number;
  readonly hoursStanding: number;
  /** How often it was held because it came and went too fast. */
  readonly chattered: number;
}

/** Alarms of a yard over a span, seen from the people who got them. */
export interface AlarmReport {
  readonly fromMs: number;
  readonly toMs: number;
  readonly texts: number;
  /** Texts that told several alarms together. */
  readonly groupedTexts: number;
  readonly textsByPriority: Readonly<Record<Priority, number>>;
  readonly people: readonly PersonLoad[];
  readonly texted: number;
  readonly acted: number;
  readonly activations: number;
  /** Most texts first, then most activations; at most ten. */
  readonly worst: readonly AlarmLoad[];
  readonly chattering: readonly AlarmLoad[];
  /** Ids of the alarms that are stale now, longest standing first. */
  readonly staleNow: readonly string[];
  readonly staleInSpan: number;
  /** Times people or the design hid an alarm. */
  readonly hidden: { readonly shelved: number; readonly suppressed: number; readonly outOfService: number };
  readonly figures: readonly ReportFigure[];
}

const worstCount = 10;

/** Makes the report over [fromMs, toMs). Throws RangeError when that is empty. */
export function alarmReport(input: ReportInput): AlarmReport {
  const { fromMs, toMs, texts } = input;
  if (toMs <= fromMs) throw new RangeError(`toMs is ${toMs}; allowed: more than fromMs (${fromMs})`);
  const people = personLoads(input);
  const stretches = standingStretches(input);
  const loads = alarmLoads(input, stretches);
  const worst = loads.slice(0, worstCount);
  const stale = staleCounts(stretches, input);
  const acted = actedUpon(input);
  const textsByPriority = countPriorities(texts);
  const activations = sum(loads.map((load) => load.activations));
  const chattering = loads.filter((load) => load.chattered > 0);
  return {
    fromMs,
    toMs,
    texts: texts.length,
    groupedTexts: texts.filter(({ alarmId }) => alarmId === null).length,
    textsByPriority,
    people,
    ...acted,
    activations,
    worst,
    chattering,
    staleNow: staleAlarms(input.alarms, input.nowMs).map(({ id }) => id),
    staleInSpan: stale.alarms,
    hidden: countHidden(input),
    figures: reportFigures({
      busiestPersonPerDay: most(people.map((person) => person.perDay)),
      nightTextsOfBusiest: most(people.map((person) => person.atNight)),
      actedShare: share(acted.acted, acted.texted),
      mostStaleOnOneDay: stale.mostOnOneDay,
      chatteringAlarms: chattering.length,
      worstTenShare: share(sum(topActivations(loads)), activations),
      mostInTenMinutes: most(people.map((person) => person.mostInTenMinutes)),
      floodShare: floodShare(input),
      pressingShare: share(textsByPriority.highest + textsByPriority.high, texts.length),
    }),
  };
}

function alarmLoads(input: ReportInput, stretches: readonly StandingStretch[]): AlarmLoad[] {
  const activations = activationsByAlarm(input);
  const texts = Map.groupBy(input.texts, ({ alarmId }) => alarmId);
  const stood = Map.groupBy(stretches, ({ alarmId }) => alarmId);
  const loads = input.alarms.map(({ id, subject, condition }) => ({
    alarmId: id,
    subject,
    condition,
    activations: activations.get(id)?.length ?? 0,
    texts: texts.get(id)?.length ?? 0,
    hoursStanding: sum((stood.get(id) ?? []).map((stretch) => hoursWithin(stretch, input))),
    chattered: chatterCount(activations.get(id) ?? []),
  }));
  return loads
    .filter((load) => load.activations + load.texts > 0)
    .sort((a, b) => b.texts - a.texts || b.activations - a.activations || b.hoursStanding - a.hoursStanding);
}

function hoursWithin(stretch: StandingStretch, { fromMs, toMs }: ReportInput): number {
  return (Math.min(stretch.toMs, toMs) - Math.max(stretch.fromMs, fromMs)) / 3_600_000;
}

function topActivations(loads: readonly AlarmLoad[]): number[] {
  return loads
    .map((load) => load.activations)
    .sort((a, b) => b - a)
    .slice(0, worstCount);
}

function countPriorities(texts: ReportInput['texts']): Record<Priority, number> {
  const count = (priority: Priority) => texts.filter((text) => text.priority === priority).length;
  return Object.fromEntries(priorities.map((one) => [one, count(one)])) as Record<Priority, number>;
}

function countHidden({ transitions, toMs }: ReportInput): AlarmReport['hidden'] {
  const count = (event: string) =>
    transitions.filter((step) => step.event === event && step.atMs < toMs).length;
  return {
    shelved: count('shelve'),
    suppressed: count('suppress'),
    outOfService: count('take-out-of-service'),
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const most = (values: readonly number[]): number => Math.max(0, ...values);
const share = (part: number, whole: number): number | null => (whole === 0 ? null : part / whole);
