import type { JournalEntryView } from '../../../shared/api/types.ts';
import { temperature } from '../../common/format.ts';
import { measures } from '../../common/words.ts';
import { pressWords } from './press/words.ts';
import { text } from './words.ts';

/** The number of an entry with its unit: "58.5 C at 0.40 m", "20 litres", "4 of 5". */
export function shownValue(entry: Pick<JournalEntryView, 'kind' | 'value' | 'depthMetres'>): string {
  const { kind, value, depthMetres } = entry;
  if (value === null) return '';
  if (kind === 'hand-reading')
    return depthMetres === null
      ? temperature(value)
      : text.at(temperature(value), measures.metres(depthMetres.toFixed(2)));
  if (kind === 'watered') return measures.litres(value);
  return kind === 'squeeze-test' ? pressWords.squeezeOf(value) : String(value);
}
