import type { ZodType } from 'zod';
import type { AlarmSubject, ConditionId, Evidence, Priority } from '../alarms/alarm.ts';
import type { Delays, Truth } from '../alarms/timing.ts';
import type { PileMethod } from '../yard/method.ts';

/** Settings every condition has. */
export interface CommonParameters extends Delays {
  readonly enabled: boolean;
  /** A text about a new occurrence waits until this long after the last one. */
  readonly minimumMinutesBetweenTexts: number;
  /** An acknowledged alarm that still holds asks again after this long; 0 = as its priority wants (`reAlarm.ts`). */
  readonly reAlarmMinutes: number;
}

/** What stands behind a verdict, worked out only when somebody is going to read it. */
export interface Findings {
  readonly evidence: readonly Evidence[];
  /** The judged number and its limit, for the text; null for conditions without one. Celsius, fraction or minutes. */
  readonly measured: Measured | null;
}

export interface Measured {
  readonly label: string;
  readonly value: number;
  readonly limit: number;
  readonly unit: 'C' | 'fraction' | 'min';
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
 * One condition of the house plan, section 6. One file each, all of this shape; `allConditions.ts` lists them. `View`
 * is what it judges: a pile, a probe or a yard at one instant. The wide type parameters are erased in lists by
 * `AnyCondition`.
 */
export interface Condition<View, P extends CommonParameters = CommonParameters> {
  readonly id: ConditionId;
  readonly name: string;
  readonly subject: AlarmSubject['kind'];
  /** Units and allowed ranges live in the schema's descriptions. */
  readonly parameters: ZodType<P>;
  readonly defaults: (method: PileMethod) => P;
  /** Where the defaults come from: a source, or "common practice, no source". */
  readonly source: string;
  /** Held until a person has looked and reset it, even when the cause has gone. */
  readonly latching: boolean;
  /**
   * Whether it holds at this instant; runs at every reading, so it allocates nothing. `wasActive` lets it apply its
   * deadband. `unknown` when there is no trustworthy value; `false` where it does not apply (method, stage).
   */
  readonly truth: (view: View, parameters: P, wasActive: boolean) => Truth;
  readonly findings: (view: View, parameters: P) => Findings;
  /** Why it should be hidden by design just now, in words for people; null when it should not. */
  readonly suppression: (view: View, parameters: P) => string | null;
  readonly priority: (view: View, parameters: P) => Priority;
  readonly words: (view: View, parameters: P) => ConditionWords;
}

/** A condition with the parameters it is to be judged by. */
export interface Rule<View> {
  readonly condition: Condition<View>;
  readonly parameters: CommonParameters;
}

/** Drops a condition's own parameter type, which only it needs; `ruleFor` is the one place that pairs them again. */
export function eraseParameters<View, P extends CommonParameters>(
  condition: Condition<View, P>,
): Condition<View> {
  return condition as unknown as Condition<View>;
}
