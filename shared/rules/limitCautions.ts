import type { ConditionId } from '../alarms/alarm.ts';
import { formatTemperature } from '../units/temperature.ts';
import type { PileMethod } from '../yard/method.ts';
import type { TemperatureUnit } from '../yard/yard.ts';

/** Values in force after a change, by condition and parameter: the method's defaults with the changes over them. */
export type LimitValues = Readonly<
  Partial<Record<ConditionId, Readonly<Record<string, number | boolean | null>>>>
>;

/**
 * What should be said about limits before they are saved. `refused`: cannot be saved at all. `danger`: only by somebody
 * who says that they have read it. `mind`: worth knowing, nothing more.
 */
export interface LimitCaution {
  readonly level: 'refused' | 'danger' | 'mind';
  readonly condition: ConditionId;
  readonly key: string;
  readonly says: string;
}

/** Fire danger that waits longer than this, or is told less often, is no warning any more (our choice, no source). */
export const mostFireDelayMinutes = 60;
export const mostFireQuietMinutes = 240;
const fire = 'too-hot-fire-danger';
const ceiling = 'too-hot-ceiling';
const early = 'too-hot-early-notice';

/** 71 C (160 F): North Carolina DEQ fire precaution. */
const safeCeilingCelsius = 71;
/** A ceiling may wait this long, as no suggestion goes beyond it either (our choice, no source). */
const usualMostCeilingDelayMinutes = 60;
/** Worms are harmed above 30 C (NC State); they are in these. */
const wormHarmCelsius = 30;
const withWorms: readonly PileMethod[] = ['worm-bed', 'static-cage'];
/** The heat nearly every rule for pathogens asks for (40 CFR Part 503 Appendix B). */
const recordCelsius = 55;
/** Below this hot work stops for want of water (Cornell compost chemistry page). */
const tooDryToWorkFraction = 0.4;

/** All that should be said about a pile's limits, gravest first. The service refuses what is `refused` here. */
export function limitCautions(
  method: PileMethod,
  values: LimitValues,
  unit: TemperatureUnit,
): LimitCaution[] {
  const shown = (celsius: number): string => formatTemperature(celsius, { unit });
  const all = [
    ...fireCautions(values, shown),
    ...ceilingCautions(values, shown),
    ...otherCautions(method, values, shown),
  ];
  const rank = { refused: 0, danger: 1, mind: 2 };
  return all.sort((one, other) => rank[one.level] - rank[other.level]);
}

type Shown = (celsius: number) => string;

/** A caution, or nothing when what it warns of is not so. */
function when(holds: boolean, caution: LimitCaution): LimitCaution[] {
  return holds ? [caution] : [];
}

function numberOf(values: LimitValues, condition: ConditionId, key: string): number | null {
  const value = values[condition]?.[key];
  return typeof value === 'number' ? value : null;
}

const isOff = (values: LimitValues, condition: ConditionId): boolean => values[condition]?.enabled === false;

/** Whether a number is there and beyond another that is there too. */
const beyond = (one: number | null, other: number | null): boolean =>
  one !== null && other !== null && one > other;

function fireCautions(values: LimitValues, shown: Shown): LimitCaution[] {
  const of = (key: string) => numberOf(values, fire, key);
  const refused = (key: string, says: string): LimitCaution => ({
    level: 'refused',
    condition: fire,
    key,
    says,
  });
  const danger = (key: string, says: string): LimitCaution => ({
    level: 'danger',
    condition: fire,
    key,
    says,
  });
  return [
    ...when(
      isOff(values, fire),
      refused('enabled', 'Fire danger cannot be switched off: people must be told to keep away.'),
    ),
    ...when(
      beyond(of('onDelayMinutes'), mostFireDelayMinutes),
      refused(
        'onDelayMinutes',
        `Fire danger may wait ${mostFireDelayMinutes} min at most before it is told.`,
      ),
    ),
    ...when(
      beyond(of('minimumMinutesBetweenTexts'), mostFireQuietMinutes),
      refused(
        'minimumMinutesBetweenTexts',
        `Texts about fire danger may be ${mostFireQuietMinutes} min apart at most.`,
      ),
    ),
    ...when(
      beyond(of('onDelayMinutes'), 10) && !beyond(of('onDelayMinutes'), mostFireDelayMinutes),
      danger('onDelayMinutes', 'Fire danger would be told later than the usual 10 min. Minutes count then.'),
    ),
    ...when(
      beyond(of('risingFromCelsius'), 76),
      danger(
        'risingFromCelsius',
        `A pile that still rises above ${shown(76)} is not heated by life alone; this would tell you of it later.`,
      ),
    ),
  ];
}

function ceilingCautions(values: LimitValues, shown: Shown): LimitCaution[] {
  const limit = numberOf(values, ceiling, 'limitCelsius');
  const fireLimit = numberOf(values, fire, 'limitCelsius');
  const danger = (key: string, says: string): LimitCaution => ({
    level: 'danger',
    condition: ceiling,
    key,
    says,
  });
  return [
    ...when(
      isOff(values, ceiling),
      danger('enabled', 'Without the ceiling nobody is told to act before there is danger of fire.'),
    ),
    ...when(
      !isOff(values, ceiling) && beyond(limit, safeCeilingCelsius),
      danger(
        'limitCelsius',
        `The ceiling would be above ${shown(safeCeilingCelsius)}, the usual fire precaution. Ask your fire service first.`,
      ),
    ),
    ...when(
      !isOff(values, ceiling) && limit !== null && fireLimit !== null && limit >= fireLimit,
      danger(
        'limitCelsius',
        `The ceiling would come no earlier than fire danger at ${shown(fireLimit ?? 0)}.`,
      ),
    ),
    ...when(
      beyond(numberOf(values, ceiling, 'onDelayMinutes'), usualMostCeilingDelayMinutes),
      danger('onDelayMinutes', 'The ceiling would be told more than an hour late.'),
    ),
  ];
}

function otherCautions(method: PileMethod, values: LimitValues, shown: Shown): LimitCaution[] {
  const ceilingLimit = numberOf(values, ceiling, 'limitCelsius');
  const earlyLimit = numberOf(values, early, 'limitCelsius');
  const dry = numberOf(values, 'drying-out-measured', 'limitFraction');
  const mind = (condition: ConditionId, key: string, says: string): LimitCaution => ({
    ...{ level: 'mind', condition, key, says },
  });
  return [
    ...when(
      !isOff(values, early) && earlyLimit !== null && ceilingLimit !== null && earlyLimit >= ceilingLimit,
      mind(early, 'limitCelsius', 'The early notice would come no earlier than the ceiling.'),
    ),
    ...when(
      withWorms.includes(method) &&
        beyond(numberOf(values, 'too-cold-range', 'highCelsius'), wormHarmCelsius),
      mind('too-cold-range', 'highCelsius', `Worms are harmed above ${shown(wormHarmCelsius)}.`),
    ),
    ...when(
      beyond(recordCelsius, numberOf(values, 'too-cold-fell-short', 'limitCelsius')),
      mind(
        'too-cold-fell-short',
        'limitCelsius',
        `Most heat records ask for ${shown(recordCelsius)}: a fall below that would go untold.`,
      ),
    ),
    ...when(
      dry !== null && dry < tooDryToWorkFraction,
      mind('drying-out-measured', 'limitFraction', 'Below 40 % hot work stops for want of water.'),
    ),
  ];
}
