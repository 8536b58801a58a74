import type { Sample } from '../../readings/reading.ts';
import type { PathOutcome } from './outcome.ts';
import type { PreconditionCheck } from './preconditions.ts';
import type { RuleSet } from './ruleSet.ts';

/** Whether the material was wet enough while the hours were earned. It flags, it does not stop the clock. */
export type MoistureFlag = 'not-asked' | 'wet-enough' | 'too-dry' | 'not-recorded';

/** Judges the driest moisture reading taken while the pile was at temperature. Moisture is a wet-basis fraction. */
export function moistureFlag(rule: RuleSet, outcome: PathOutcome, moisture: readonly Sample[]): MoistureFlag {
  const least = rule.minimumMoistureFraction;
  if (least === null) return 'not-asked';
  let any = false;
  let next = 0;
  for (const stretch of outcome.stretches) {
    while (next < moisture.length && moisture[next]!.timeMs < stretch.fromMs) next++;
    for (; next < moisture.length && moisture[next]!.timeMs <= stretch.toMs; next++) {
      if (moisture[next]!.value < least) return 'too-dry';
      any = true;
    }
  }
  return any ? 'wet-enough' : 'not-recorded';
}

export interface CautionFacts {
  readonly rule: RuleSet;
  readonly coreOnly: boolean;
  readonly withheld: boolean;
  readonly plain: PathOutcome;
  /** Whether the rule is also met with the probe's tolerance kept back. */
  readonly guardedMet: boolean;
  readonly moisture: MoistureFlag;
  readonly preconditions: readonly PreconditionCheck[];
  readonly clearedAtMs: number | null;
}

/** What a reader of the record must be told so that it does not say more than it knows. */
export function cautionsFor(facts: CautionFacts): string[] {
  const { rule } = facts;
  const open = facts.preconditions.filter((one) => one.state === 'not-recorded').map((one) => one.words);
  const met = facts.plain.satisfiedAtMs !== null;
  const lines: (string | null)[] = [
    rule.status === 'from-memory'
      ? 'The figures of this rule are unconfirmed: check its text before relying on it.'
      : null,
    zoneCaution(facts),
    met && !facts.guardedMet
      ? 'The rule is met only if the probe reads true: with its tolerance kept back the hours are not enough.'
      : null,
    moistureCaution(rule, facts.moisture),
    open.length > 0 ? `The readings cannot show that: ${open.join('; ')}.` : null,
    facts.clearedAtMs === null
      ? null
      : 'Fresh material was added, so hours and turnings before that do not count.',
    rule.note,
    'Temperature is one part of a rule. Ask the local authority what else applies.',
  ];
  return lines.filter((line) => line !== null);
}

function zoneCaution({ rule, coreOnly, withheld }: CautionFacts): string | null {
  if (withheld) {
    return 'Core record only: nobody turns this pile, and nothing here shows that its outside got as hot. Put a probe near the edge.';
  }
  if (!coreOnly || rule.zones === 'core') return null;
  return 'Only the core was watched; the rule asks for all of the material, so the coolest place should be watched too.';
}

function moistureCaution(rule: RuleSet, flag: MoistureFlag): string | null {
  const percent = `${Math.round((rule.minimumMoistureFraction ?? 0) * 100)} %`;
  if (flag === 'too-dry')
    return `Moisture fell below ${percent} while the hours were earned; this rule asks for more.`;
  if (flag === 'not-recorded') return `This rule asks for at least ${percent} moisture; none was recorded.`;
  return null;
}
