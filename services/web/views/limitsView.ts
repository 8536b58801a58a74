import { z } from 'zod';
import type {
  LimitCondition,
  LimitParameter,
  LimitsVersionView,
  LimitsView,
  LimitValue,
} from '../../../shared/api/types.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import type { LimitOverrides, LimitsVersion } from '../../records/port.ts';
import type { ConditionFacts } from '../conditionFacts.ts';
import type { House } from '../house.ts';
import { peopleNames } from './names.ts';

/** Limits in force for a pile: method defaults, what was changed, by whom and why. */
export async function limitsView(house: House, pile: Pile): Promise<LimitsView> {
  const [current, history, nameOfPerson] = await Promise.all([
    house.records.limits.current(pile.id),
    house.records.limits.history(pile.id),
    peopleNames(house, pile.yardId),
  ]);
  const view = (version: LimitsVersion): LimitsVersionView => ({
    version: version.version,
    overrides: asPlain(version.overrides),
    reason: version.reason,
    by: nameOfPerson(version.by),
    savedMs: version.savedMs,
  });
  return {
    pileId: pile.id,
    method: pile.method,
    current: view(current),
    conditions: house.conditions.map((condition) => conditionLimits(condition, pile, current.overrides)),
    history: history.map(view).sort((a, b) => b.version - a.version),
  };
}

function asPlain(overrides: LimitOverrides): Record<string, Record<string, LimitValue>> {
  return Object.fromEntries(Object.entries(overrides).map(([id, changed]) => [id, { ...changed }]));
}

function conditionLimits(condition: ConditionFacts, pile: Pile, overrides: LimitOverrides): LimitCondition {
  const defaults = condition.defaults(pile.method) as unknown as Record<string, LimitValue>;
  const changed = overrides[condition.id] ?? {};
  const shapes = parameterShapes(condition);
  return {
    condition: condition.id,
    name: condition.name,
    source: condition.source,
    parameters: Object.entries(defaults).map(([key, value]) => ({
      key,
      ...(shapes.get(key) ?? unknownShape),
      default: value,
      value: changed[key] ?? value,
    })),
  };
}

type Shape = Pick<LimitParameter, 'unit' | 'description' | 'kind' | 'minimum' | 'maximum' | 'nullable'>;

const unknownShape: Shape = {
  unit: '',
  description: null,
  kind: 'number',
  minimum: null,
  maximum: null,
  nullable: false,
};

interface JsonProperty {
  readonly unit?: string;
  readonly description?: string;
  readonly type?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly anyOf?: readonly JsonProperty[];
}

/** Units and ranges stand in each condition's own schema; read from there so that they are said once. */
function parameterShapes(condition: ConditionFacts): Map<string, Shape> {
  const { properties = {} } = z.toJSONSchema(condition.parameters, { io: 'input', unrepresentable: 'any' });
  return new Map(
    Object.entries(properties).map(([key, property]) => [key, shapeOf(property as JsonProperty)]),
  );
}

function shapeOf(property: JsonProperty): Shape {
  const main = property.anyOf?.find((one) => one.type !== 'null') ?? property;
  return {
    unit: property.unit ?? main.unit ?? '',
    description: property.description ?? main.description ?? null,
    kind: main.type === 'boolean' ? 'boolean' : 'number',
    minimum: main.minimum ?? main.exclusiveMinimum ?? null,
    maximum: main.maximum ?? main.exclusiveMaximum ?? null,
    nullable: property.anyOf?.some((one) => one.type === 'null') ?? false,
  };
}
