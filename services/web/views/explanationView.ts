import type { ExplanationView } from '../../../shared/api/types.ts';
import type { Explanation } from '../../../shared/diagnosis/explain.ts';

/** Causes less likely than this are not worth a line. */
const leastChance = 0.05;
const mostCauses = 4;

/** An explanation as pages show it: names and sentences, no tables. */
export function explanationView(explanation: Explanation | null): ExplanationView | null {
  if (explanation === null) return null;
  const { diagnosis, advice } = explanation;
  const named = diagnosis.causes.filter(({ chance }) => chance >= leastChance).slice(0, mostCauses);
  return {
    summary: diagnosis.summary,
    causes: named.map(({ name, chance, for: speakingFor, against }) => ({
      name,
      chance,
      for: speakingFor.map(({ text }) => text),
      against: against.map(({ text }) => text),
    })),
    nextCheck: diagnosis.nextCheck?.check.ask ?? null,
    firstAction: advice.firstAction,
    actions: advice.actions.map(({ text, source }) => ({ text, source })),
    cautions: advice.cautions,
  };
}
