import type { PileMethod } from '../../yard/method.ts';
import type { RuleSet } from './ruleSet.ts';
import { canadianAndAustralianRules } from './rules/canadaAndAustralia.ts';
import { europeanRules } from './rules/europe.ts';
import { unitedStatesRules } from './rules/unitedStates.ts';

/** Every time-temperature rule we know, each with its source and how sure we are of it. */
export const ruleSets: readonly RuleSet[] = [
  ...unitedStatesRules,
  ...europeanRules,
  ...canadianAndAustralianRules,
];

/** The rule with this id. Throws `RangeError` naming the id and the ids there are. */
export function findRuleSet(id: string): RuleSet {
  const found = ruleSets.find((rule) => rule.id === id);
  if (found === undefined) {
    throw new RangeError(
      `rule set ${JSON.stringify(id)} is not known; known: ${ruleSets.map((rule) => rule.id).join(', ')}`,
    );
  }
  return found;
}

/** The rules that may be applied to a pile run this way. */
export function ruleSetsFor(method: PileMethod): RuleSet[] {
  return ruleSets.filter((rule) => rule.methods.includes(method));
}
