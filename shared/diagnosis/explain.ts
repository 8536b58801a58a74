import type { ConditionId } from '../alarms/alarm.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { type Advice, adviceForDiagnosis } from './advice/adviceFor.ts';
import { type Diagnosis, diagnose } from './diagnose.ts';
import type { DiagnosisFacts } from './facts/facts.ts';
import { observationsFrom, situationFrom } from './facts/observationsFrom.ts';
import { troubleOf } from './trouble.ts';

export interface Explanation {
  readonly diagnosis: Diagnosis;
  readonly advice: Advice;
}

/**
 * Why a condition stands, likeliest cause first, and what to do about it; null for conditions whose cause is not in
 * question. `hasFireAlarm`: a fire danger alarm stands or stood until somebody looked, which outlasts what the probes say.
 */
export function explain(
  condition: ConditionId,
  facts: DiagnosisFacts,
  hasFireAlarm: boolean,
  unit: TemperatureUnit,
): Explanation | null {
  const trouble = troubleOf(condition);
  if (trouble === null) return null;
  const seen = situationFrom(facts);
  const situation = { ...seen, hasSignsOfFire: seen.hasSignsOfFire || hasFireAlarm };
  const diagnosis = diagnose(trouble, observationsFrom(facts), situation, unit);
  return { diagnosis, advice: adviceForDiagnosis(diagnosis, situation) };
}
