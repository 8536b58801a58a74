import type { ProblemField } from '../../shared/api/types.ts';
import { type LimitValues, limitCautions } from '../../shared/rules/limitCautions.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { LimitOverrides } from '../records/port.ts';
import type { ConditionFacts } from './conditionFacts.ts';
import { ApiProblem } from './problems/apiProblem.ts';
import { describeIssue } from './problems/describeIssue.ts';

type Values = Readonly<Record<string, number | boolean | null>>;

/**
 * Checks changed limits against each condition's own schema and returns only what differs from the method's defaults;
 * null means "back to the default".
 * Refuses unknown conditions and parameters, values outside the allowed range, and what would make fire danger late or
 * silent, naming each.
 */
export function checkOverrides(
  conditions: readonly ConditionFacts[],
  method: PileMethod,
  overrides: LimitOverrides,
): LimitOverrides {
  const errors: ProblemField[] = [];
  const checked: Record<string, Values> = {};
  for (const [id, values] of Object.entries(overrides)) {
    const condition = conditions.find((one) => one.id === id);
    if (condition === undefined) {
      errors.push(
        unknown(
          ['overrides', id],
          conditions.map((one) => one.id),
        ),
      );
      continue;
    }
    const defaults = condition.defaults(method) as unknown as Values;
    errors.push(...complaints(condition, defaults, values));
    const different = Object.entries(given(values)).filter(([key, value]) => value !== defaults[key]);
    if (different.length > 0) checked[id] = Object.fromEntries(different);
    errors.push(...unsafe(method, { [id]: { ...defaults, ...given(values) } }));
  }
  if (errors.length === 0) return checked;
  throw new ApiProblem('bad-request', errors.map((one) => one.detail).join('. '), { errors });
}

function complaints(condition: ConditionFacts, defaults: Values, values: Values): ProblemField[] {
  const strange = Object.keys(values).filter((key) => !Object.hasOwn(defaults, key));
  if (strange.length > 0) {
    return strange.map((key) => unknown(['overrides', condition.id, key], Object.keys(defaults)));
  }
  const merged = { ...defaults, ...given(values) };
  const issues = condition.parameters.safeParse(merged).error?.issues ?? [];
  return issues.map((issue) => {
    const { path, code, message, ...params } = issue;
    const instancePath = `/overrides/${condition.id}/${path.map(String).join('/')}`;
    return describeIssue(
      { keyword: code, instancePath, message, params: params as Record<string, unknown> },
      { overrides: { [condition.id]: merged } },
    );
  });
}

/** What no pile may be set to, whoever asks. */
function unsafe(method: PileMethod, values: LimitValues): ProblemField[] {
  return limitCautions(method, values, 'C')
    .filter(({ level }) => level === 'refused')
    .map(({ condition, key, says }) => ({ detail: says, pointer: `#/overrides/${condition}/${key}` }));
}

function given(values: Values): Values {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
}

function unknown(path: readonly string[], allowed: readonly string[]): ProblemField {
  const detail = `${path.join('.')}: no such limit; allowed: ${allowed.join(', ')}`;
  return { detail, pointer: `#/${path.join('/')}` };
}
