import type { ExplanationView, LikelyCause } from '../../../shared/api/types.ts';
import { percent } from '../../common/format.ts';
import { words } from '../../common/words.ts';
import { text } from './words.ts';

/** What to do first, why it is likely so, what would tell, and then all of the rest. */
export function Explained({ explanation }: { readonly explanation: ExplanationView }) {
  const { summary, causes, nextCheck, firstAction, actions, cautions } = explanation;
  return (
    <div class="advice">
      <p class="first-action">
        <strong>{words.first}</strong> {firstAction}
      </p>
      <ul class="cautions">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p>{summary}</p>
      {nextCheck !== null && (
        <p class="would-tell">
          <strong>{words.wouldTell}</strong> {nextCheck}
        </p>
      )}
      <details>
        <summary>{words.causesAndSteps}</summary>
        <h4>{text.causes}</h4>
        <ol class="causes">
          {causes.map((cause) => (
            <Cause key={cause.name} cause={cause} />
          ))}
        </ol>
        <h4>{text.steps}</h4>
        <ol>
          {actions.map(({ text: said, source }) => (
            <li key={said}>
              {said} <span class="hint">({source})</span>
            </li>
          ))}
        </ol>
      </details>
    </div>
  );
}

function Cause({ cause }: { readonly cause: LikelyCause }) {
  return (
    <li>
      <strong>{cause.name}</strong> {percent(cause.chance)}
      <svg class="chance" viewBox="0 0 100 6" width="100" height="6" aria-hidden="true">
        <rect width="100" height="6" fill="var(--sunk)" />
        <rect width={cause.chance * 100} height="6" fill="var(--soft-ink)" />
      </svg>
      {cause.for.length > 0 && (
        <p class="hint">
          {words.speaksFor} {cause.for.join('; ')}
        </p>
      )}
      {cause.against.length > 0 && (
        <p class="hint">
          {words.speaksAgainst} {cause.against.join('; ')}
        </p>
      )}
    </li>
  );
}
