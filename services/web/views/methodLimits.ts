import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type { MethodLimits } from '../../../shared/api/types.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import type { ConditionFacts } from '../conditionFacts.ts';

/** The limits a beginner should hear of, read from the conditions themselves so that they cannot differ from them. */
export function methodLimits(conditions: readonly ConditionFacts[], method: PileMethod): MethodLimits {
  const number = (id: ConditionId, key: string): number | null => {
    const condition = conditions.find((one) => one.id === id && one.subject === 'pile');
    const defaults = condition?.defaults(method) as unknown as Record<string, unknown> | undefined;
    const value = defaults?.enabled === false ? undefined : defaults?.[key];
    return typeof value === 'number' ? value : null;
  };
  return {
    method,
    ceilingCelsius: number('too-hot-ceiling', 'limitCelsius')!,
    fireCelsius: number('too-hot-fire-danger', 'limitCelsius')!,
    tooLongDays: number('too-hot-too-long', 'budgetDays'),
    neverHeatedDays: number('too-cold-never-heated', 'days'),
    neverHeatedCelsius: number('too-cold-never-heated', 'limitCelsius'),
    dryBelowFraction: number('drying-out-measured', 'limitFraction')!,
    wetAboveFraction: number('too-wet', 'limitFraction')!,
    keepFromCelsius: number('too-cold-range', 'lowCelsius'),
    keepToCelsius: number('too-cold-range', 'highCelsius'),
    stalledBelowCelsius: number('stalled', 'belowCelsius'),
  };
}
