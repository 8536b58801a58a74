import type { ZodType } from 'zod';
import type { AlarmSubject, ConditionId, Evidence, Priority } from '../alarms/alarm.ts';
import type { PileMethod } from '../yard/method.ts';
import type { Stage } from '../yard/yard.ts';
import type { PileWindow } from './pileWindow.ts';

/** Timers every condition has; values are event time, see ISO 16484-5 semantics in the alarm timing module. */
export interface TimingParameters {
  readonly enabled: boolean;
  readonly onDelayMinutes: number;
  readonly offDelayMinutes: number;
}

/** What a condition says of one instant. `unknown` freezes the timers: missing data neither raises nor clears. */
export interface Verdict {
  readonly truth: 'true' | 'false' | 'unknown';
  readonly evidence: readonly Evidence[];
  /** The judged number and its limit, for the text; null for conditions without one. */
  readonly measured: { readonly value: number; readonly limit: number; readonly unit: string } | null;
}

/** Words for people; each piece is short so that a text fits one segment. */
export interface ConditionWords {
  /** "core too hot", "drying out" */
  readonly what: string;
  /** First thing to do, safe to follow as it stands. */
  readonly firstAction: string;
  /** Cautions that must be seen with the action, shortest first. */
  readonly cautions: readonly string[];
}

/**
 * One condition of the house plan, section 6. One file each, all of this shape; `allConditions.ts` lists them.
 * `wasActive` lets the predicate apply its deadband: stay true until the value is back inside limit minus deadband.
 */
export interface Condition<P extends TimingParameters = TimingParameters> {
  readonly id: ConditionId;
  readonly name: string;
  readonly subject: AlarmSubject['kind'];
  /** Units and allowed ranges live in the schema's descriptions. */
  readonly parameters: ZodType<P>;
  readonly defaults: (method: PileMethod) => P;
  /** Where the default comes from: a source, or "common practice, no source". */
  readonly source: string;
  readonly appliesIn: (method: PileMethod, stage: Stage | null) => boolean;
  readonly evaluate: (window: PileWindow, parameters: P, wasActive: boolean) => Verdict;
  /** Why it should be hidden by design just now, in words for people; null when it should not. */
  readonly suppression: (window: PileWindow, parameters: P) => string | null;
  readonly priority: (window: PileWindow, verdict: Verdict) => Priority;
  readonly words: (window: PileWindow, verdict: Verdict) => ConditionWords;
}
