import { z } from 'zod';
import type { PileMethod } from '../yard/method.ts';
import type { CommonParameters, Condition, Rule } from './condition.ts';

/** A number with its unit, allowed range and meaning, as screens show it. */
export function number(unit: string, minimum: number, maximum: number, description: string): z.ZodNumber {
  return z.number().min(minimum).max(maximum).meta({ unit, description });
}

/** Fields every condition's schema starts with. */
export const commonShape = {
  enabled: z.boolean().meta({ unit: '', description: 'Judge this condition at all.' }),
  onDelayMinutes: number('min', 0, 2880, 'Must hold this long without a break before the alarm.'),
  offDelayMinutes: number(
    'min',
    0,
    2880,
    'Must be back this long without a break before it returns to normal.',
  ),
  minimumMinutesBetweenTexts: number('min', 0, 43200, 'A new text waits until this long after the last one.'),
  reAlarmMinutes: number(
    'min',
    0,
    43200,
    'Acknowledged and still so, it asks again after this long; 0 = by its priority (an hour at fire danger, a day, 3 days).',
  ),
};

/** Delays most conditions start from: a pile changes over hours, so minutes cost nothing (common practice, no source). */
export const commonDefaults: CommonParameters = {
  enabled: true,
  onDelayMinutes: 30,
  offDelayMinutes: 30,
  minimumMinutesBetweenTexts: 60,
  reAlarmMinutes: 0,
};

/** What a person changed in a pile's limits, by field; null = back to the method's default. */
export type Overrides = Readonly<Record<string, number | boolean | null>>;

/** Thrown when a saved limit is not allowed; names condition, field, value and what is allowed. */
export class LimitError extends Error {
  override readonly name = 'LimitError';
  readonly field: string;
  constructor(field: string, message: string) {
    super(message);
    this.field = field;
  }
}

/**
 * Pairs a condition with its parameters: the method's defaults with a person's changes over them, checked against the
 * schema. Throws LimitError.
 */
export function ruleFor<View>(
  condition: Condition<View>,
  method: PileMethod,
  overrides: Overrides = {},
): Rule<View> {
  const changed = Object.fromEntries(Object.entries(overrides).filter(([, value]) => value !== null));
  if (Object.keys(changed).length === 0) return defaultRule(condition, method);
  const parsed = condition.parameters.safeParse({ ...condition.defaults(method), ...changed });
  if (parsed.success) return { condition, parameters: parsed.data };
  const issue = parsed.error.issues[0]!;
  const field = [condition.id, ...issue.path].join('.');
  const value = changed[String(issue.path[0])];
  throw new LimitError(field, `${field} is ${String(value)}: ${issue.message}`);
}

/** Rules nobody changed are one object for all piles of a method: most of ten thousand piles have no other. */
const defaultRules = new WeakMap<object, Map<PileMethod, unknown>>();

function defaultRule<View>(condition: Condition<View>, method: PileMethod): Rule<View> {
  const rules = defaultRules.get(condition) ?? new Map<PileMethod, unknown>();
  defaultRules.set(condition, rules);
  const rule = (rules.get(method) as Rule<View> | undefined) ?? {
    condition,
    parameters: condition.defaults(method),
  };
  rules.set(method, rule);
  return rule;
}
