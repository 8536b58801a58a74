import type { JournalEntryView } from '../../../shared/api/types.ts';
import type { JournalKind } from '../../../shared/yard/journal.ts';
import { temperature } from '../../common/format.ts';

/** One or two letters for a mark on the chart; its whole name is read out and shown when it is tapped. */
export const markSign: Readonly<Record<JournalKind, string>> = {
  built: 'B',
  turned: 'T',
  watered: 'W',
  added: 'A',
  opened: 'O',
  'channels-pulled': 'Ch',
  'worms-added': 'Wo',
  covered: 'Co',
  uncovered: 'Un',
  moved: 'Mv',
  'probe-pulled': 'P-',
  'probe-returned': 'P+',
  'hand-reading': 'H',
  'squeeze-test': 'S',
  note: 'N',
  finished: 'F',
};

/** The number of an entry with its unit: "58.5 C at 0.40 m", "20 litres", "4 of 5". */
export function shownValue(entry: Pick<JournalEntryView, 'kind' | 'value' | 'depthMetres'>): string {
  const { kind, value, depthMetres } = entry;
  if (value === null) return '';
  if (kind === 'hand-reading')
    return `${temperature(value)}${depthMetres === null ? '' : ` at ${depthMetres.toFixed(2)} m`}`;
  if (kind === 'watered') return `${value} litres`;
  return kind === 'squeeze-test' ? `${value} of 5` : String(value);
}
