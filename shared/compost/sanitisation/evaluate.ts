import type { SanitisationInput } from './input.ts';
import { judge } from './judge.ts';
import { defaultSanitisationPolicy, type SanitisationPolicy } from './policy.ts';
import type { SanitisationResult } from './result.ts';
import type { RuleSet } from './ruleSet.ts';
import { requiredZones, type Watched, watch } from './watch.ts';

/**
 * Judges a pile's record against one published time-temperature rule. The coolest required zone decides, time without
 * data earns nothing, and fresh material clears what was earned. Throws `RangeError` on samples out of time order.
 */
export function evaluateSanitisation(
  rule: RuleSet,
  input: SanitisationInput,
  policy: SanitisationPolicy = defaultSanitisationPolicy,
): SanitisationResult {
  return evaluateAll([rule], input, policy)[0]!;
}

/** Judges one record against several rules, joining the zones only once for those that ask for the same zones. */
export function evaluateAll(
  rules: readonly RuleSet[],
  input: SanitisationInput,
  policy: SanitisationPolicy = defaultSanitisationPolicy,
): SanitisationResult[] {
  const joined = new Map<string, Watched>();
  return rules.map((rule) => {
    const zones = requiredZones(rule, input, policy);
    const key = zones.join();
    const watched = joined.get(key) ?? watch(zones, input, policy);
    joined.set(key, watched);
    return judge(rule, watched, input, policy);
  });
}
