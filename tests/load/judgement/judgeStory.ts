import { type ConditionId, priorities } from '../../../shared/alarms/alarm.ts';
import { advance } from '../../../shared/rules/assess.ts';
import type { PileLimits } from '../../../shared/rules/pileSubject.ts';
import { createProbeSubject } from '../../../shared/rules/probeSubject.ts';
import { replayPast } from '../../../shared/rules/replay.ts';
import { alarmsOf, type ReplayAlarm } from '../../../shared/rules/replayAlarms.ts';
import { type JudgedStep, type ReplayText, textsOf } from '../../../shared/rules/replayTexts.ts';
import type { ToldProbe, ToldStory } from './tellStory.ts';

/** What the rules made of a story: every alarm of its pile and probes, and the texts people got. */
export interface Judged {
  readonly alarms: readonly ReplayAlarm[];
  /** Of medium priority and above: what a keeper's phone gets. */
  readonly texts: readonly ReplayText[];
}

/** Judges a told story by the method's defaults or other limits, the pile and each of its probes. */
export function judgeStory(told: ToldStory, limits: PileLimits = { version: 0, overrides: {} }): Judged {
  const pile = replayPast(told.past, limits);
  const probes = told.probes.map((probe) => judgeProbe(probe, told.past.toMs));
  const texts = [pile, ...probes].flatMap((judged) => judged.texts);
  return {
    alarms: [pile, ...probes].flatMap((judged) => judged.alarms),
    texts: texts.filter(({ priority }) => priorities.indexOf(priority) <= priorities.indexOf('medium')),
  };
}

function judgeProbe({ facts, readings }: ToldProbe, toMs: number): Judged {
  const { subject } = createProbeSubject('gannet-row', facts, () => false);
  const { transitions } = advance(subject, readings, toMs);
  const rules = new Map(subject.rules.map((rule) => [rule.condition.id, rule]));
  const conditionOf = new Map([...subject.alarms.values()].map((alarm) => [alarm.id, alarm]));
  const steps = transitions.map((transition): JudgedStep => {
    const { condition, priority } = conditionOf.get(transition.alarmId)!;
    return { condition, transition, priority };
  });
  const quiet = (condition: ConditionId): number =>
    rules.get(condition)?.parameters.minimumMinutesBetweenTexts ?? 0;
  return { alarms: alarmsOf(steps), texts: textsOf(steps, quiet, toMs) };
}
