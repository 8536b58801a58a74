import type { LimitCondition } from '../../../shared/api/types.ts';
import type { Suggestion } from '../../../shared/rules/suggestLimits.ts';
import type { Trial } from './trial.ts';
import { limitWords } from './words.ts';

interface SuggestedProps {
  readonly condition: LimitCondition;
  readonly suggestion: Suggestion | null;
  readonly searching: boolean;
  readonly trial: Trial;
  readonly onTake: (own: Trial[string]) => void;
}

/** What the pile's own past says about calmer numbers for this condition; one press puts them on trial. */
export function Suggested({ condition, suggestion, searching, trial, onTake }: SuggestedProps) {
  if (suggestion === null && !searching) return null;
  const own = trial[condition.condition] ?? {};
  const taken =
    suggestion?.kind === 'change' &&
    Object.entries(suggestion.overrides).every(([key, value]) => own[key] === value);
  return (
    <section aria-labelledby="suggested-title">
      <h2 id="suggested-title">{limitWords.suggestion}</h2>
      {suggestion === null && <p class="hint">{limitWords.searching}</p>}
      {suggestion !== null && <p>{suggestion.says}</p>}
      {suggestion?.kind === 'change' && (
        <p class="buttons">
          <button
            type="button"
            disabled={taken}
            onClick={() => onTake({ ...suggestion.overrides } as Trial[string])}
          >
            {taken ? limitWords.taken : limitWords.take}
          </button>
        </p>
      )}
    </section>
  );
}
