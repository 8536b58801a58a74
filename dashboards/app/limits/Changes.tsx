import { display } from '../../common/format.ts';
import { conditionWords } from '../../common/words.ts';
import { parameterName, valueWords } from './showing.ts';
import type { Change } from './trial.ts';

/** What would change, number by number: `core too hot: limit 71 C → 68 C`. */
export function Changes({ changes }: { readonly changes: readonly Change[] }) {
  const { unit } = display.value;
  return (
    <ul class="changes">
      {changes.map(({ condition, parameter, from, to }) => (
        <li key={`${condition} ${parameter.key}`}>
          <strong>{conditionWords[condition]}</strong>: {parameterName(parameter)}{' '}
          {valueWords(parameter, from, unit)} → <strong>{valueWords(parameter, to, unit)}</strong>
        </li>
      ))}
    </ul>
  );
}
