import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type {
  LimitCondition,
  LimitOverridesView,
  LimitParameter,
  LimitValue,
} from '../../../shared/api/types.ts';
import type { LimitValues } from '../../../shared/rules/limitCautions.ts';

/** Limits on trial: only what differs from the method's defaults, as they would be saved. */
export type Trial = LimitOverridesView;

/** Conditions judged of piles; a pile has no say in those of probes and of the service. */
export function ofPile(conditions: readonly LimitCondition[]): LimitCondition[] {
  return conditions.filter(({ condition }) => !/^(probe|service)-/.test(condition));
}

/** The value of one parameter under a trial. */
export function valueIn(trial: Trial, condition: ConditionId, parameter: LimitParameter): LimitValue {
  return trial[condition]?.[parameter.key] ?? parameter.default;
}

/** The trial with one value changed; a value that is the method's own is left out. */
export function withValue(
  trial: Trial,
  condition: ConditionId,
  parameter: LimitParameter,
  value: LimitValue,
): Trial {
  const { [parameter.key]: _, ...others } = trial[condition] ?? {};
  const own = value === parameter.default ? others : { ...others, [parameter.key]: value };
  const { [condition]: __, ...rest } = trial;
  return Object.keys(own).length === 0 ? rest : { ...rest, [condition]: own };
}

/** The trial with all of one condition's changes replaced; null: back to the method's. */
export function withCondition(trial: Trial, condition: ConditionId, own: Trial[string] | null): Trial {
  const { [condition]: _, ...rest } = trial;
  return own === null || Object.keys(own).length === 0 ? rest : { ...rest, [condition]: own };
}

/** Every value of every condition under a trial. */
export function valuesOf(conditions: readonly LimitCondition[], trial: Trial): LimitValues {
  return Object.fromEntries(
    conditions.map(({ condition, parameters }) => [
      condition,
      Object.fromEntries(parameters.map((one) => [one.key, valueIn(trial, condition, one)])),
    ]),
  ) as LimitValues;
}

/** One number that is not the same under two sets of limits. */
export interface Change {
  readonly condition: ConditionId;
  readonly parameter: LimitParameter;
  readonly from: LimitValue;
  readonly to: LimitValue;
}

/** What differs between two sets of limits, in the order of the conditions. */
export function changesBetween(conditions: readonly LimitCondition[], from: Trial, to: Trial): Change[] {
  return conditions.flatMap(({ condition, parameters }) =>
    parameters.flatMap((parameter) => {
      const change = {
        ...{ condition, parameter },
        from: valueIn(from, condition, parameter),
        to: valueIn(to, condition, parameter),
      };
      return change.from === change.to ? [] : [change];
    }),
  );
}
