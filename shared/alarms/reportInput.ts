import type { PileId } from '../yard/yard.ts';
import type { Alarm, AlarmSubject, AlarmTransition, ConditionId, Priority } from './alarm.ts';

/** A text as the report needs it; grouped texts and test texts name no alarm. */
export interface ReportedText {
  readonly personId: string;
  readonly alarmId: string | null;
  readonly occurrence: number | null;
  readonly pileId: PileId | null;
  readonly priority: Priority;
  readonly createdMs: number;
}

/** Something a person wrote in a pile's journal. */
export interface ReportedDeed {
  readonly pileId: PileId;
  readonly timeMs: number;
}

/** Everything the report over a span is made from. */
export interface ReportInput {
  /** IANA zone of the yard: days and nights are its own. */
  readonly timeZone: string;
  /** Inclusive, exclusive. */
  readonly fromMs: number;
  readonly toMs: number;
  readonly nowMs: number;
  readonly people: readonly { readonly id: string; readonly name: string }[];
  /** All alarms of the yard as they stand now. */
  readonly alarms: readonly Alarm[];
  /** From `fromMs` to now, in the order they were written: what came after the span tells how things stood at its end. */
  readonly transitions: readonly (AlarmTransition & {
    readonly condition: ConditionId;
    readonly subject: AlarmSubject;
  })[];
  /** Texts written in the span, tests left out. */
  readonly texts: readonly ReportedText[];
  /** People's entries in the span and in the hours after it in which a text may still be acted upon. */
  readonly deeds: readonly ReportedDeed[];
}
