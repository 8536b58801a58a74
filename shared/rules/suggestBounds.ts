import type { ConditionId } from '../alarms/alarm.ts';
import type { CommonParameters } from './condition.ts';

/** How far a suggestion may go. Narrower than what a person may set by hand: a program must not talk safety away. */
export interface SafeBounds {
  /** Range of the limit itself; null: the limit is left as it is. */
  readonly limit: { readonly minimum: number; readonly maximum: number; readonly step: number } | null;
  readonly mostOnDelayMinutes: number;
  readonly mostOffDelayMinutes: number;
  readonly mostDeadband: number;
}

const anyCondition: SafeBounds = {
  limit: null,
  mostOnDelayMinutes: 720,
  mostOffDelayMinutes: 720,
  mostDeadband: 5,
};

/** Least moisture each method's limit starts from; a suggestion stays within five points of it (our choice). */
const around = (limit: number) => ({ minimum: limit - 0.05, maximum: limit + 0.05, step: 0.01 });

/**
 * Bounds by condition; null: nothing is ever suggested. Fire danger is not a matter of comfort. The ceiling is never
 * put above 71 C (160 F, North Carolina DEQ fire precaution) nor made to wait more than an hour; the notice before it
 * stays below 69 C so that it comes first. The other figures are our choice, no source.
 */
export function safeBounds(condition: ConditionId, defaults: CommonParameters): SafeBounds | null {
  switch (condition) {
    case 'too-hot-fire-danger':
      return null;
    case 'too-hot-ceiling':
      return {
        ...anyCondition,
        limit: { minimum: 65, maximum: 71, step: 1 },
        mostOnDelayMinutes: 60,
        mostOffDelayMinutes: 240,
      };
    case 'too-hot-early-notice':
      return { ...anyCondition, limit: { minimum: 60, maximum: 69, step: 1 }, mostOnDelayMinutes: 240 };
    case 'drying-out-measured': {
      const { limitFraction } = defaults as CommonParameters & { readonly limitFraction?: number };
      return {
        ...anyCondition,
        limit: limitFraction === undefined ? null : around(limitFraction),
        mostDeadband: 0.1,
      };
    }
    default:
      return anyCondition;
  }
}
