import type { LimitCaution } from '../../../shared/rules/limitCautions.ts';
import { conditionWords } from '../../common/words.ts';
import { limitWords } from './words.ts';

/** What must be read before these limits are saved. */
export function Cautions({ cautions }: { readonly cautions: readonly LimitCaution[] }) {
  if (cautions.length === 0) return null;
  return (
    <div role="alert">
      <ul class="limit-cautions">
        {cautions.map(({ level, condition, key, says }) => (
          <li key={`${condition} ${key} ${says}`} class={`is-${level}`}>
            <strong>{limitWords.cautionLevels[level]}</strong> {conditionWords[condition]}: {says}
          </li>
        ))}
      </ul>
    </div>
  );
}
