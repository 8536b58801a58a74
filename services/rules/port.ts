import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';
import type { Explanation } from '../../shared/diagnosis/explain.ts';
import type { ConditionWords } from '../../shared/rules/condition.ts';
import type { Past } from '../../shared/rules/replayPast.ts';
import type { PileId, TemperatureUnit } from '../../shared/yard/yard.ts';

export { hashAnswerToken, newAnswerToken } from './answerToken.ts';

/** Nobody judges the yard just now, so nothing could be done: another process takes over within half a minute. */
export class JudgementAway extends Error {
  override readonly name = 'JudgementAway';
  constructor() {
    super('The yard is not being judged just now, so nothing was changed. Try again in half a minute.');
  }
}

/** What other services may ask of rules. */
export interface RulesPort {
  /** New readings are stored: assess soon. Cheap; many nudges become one pass. */
  nudge(): void;
  /**
   * A person's action on an alarm (acknowledge, shelve, reset...). Stored with its transition; retried when the alarm
   * moved meanwhile. Throws RecordsError on `alarmId` when there is no such alarm, on `event` when it cannot happen now.
   */
  act(alarmId: string, event: AlarmEvent): Promise<Alarm>;
  /**
   * The records changed in what judgement rests on: a pile, its placements, limits or journal, or (without a pile) the
   * yard, its people or probes. Without this call it is noticed some seconds later.
   */
  factsChanged?(pileId?: PileId): void;
  /** Likely causes of an alarm and what to do about them; null where the cause is not in question. */
  explain?(alarm: Alarm, unit: TemperatureUnit): Promise<Explanation | null>;
  /**
   * A stretch of a pile's past as judgement reads it, for replaying it with other limits; null when there is no such pile.
   */
  readPast?(pileId: PileId, span: { readonly fromMs: number; readonly toMs: number }): Promise<Past | null>;
  /** What an alarm says to people now: what it is, what to do first, cautions; null when its subject is gone. */
  wordsFor?(alarm: Alarm): Promise<ConditionWords | null>;
}
