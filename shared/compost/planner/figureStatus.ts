import type { Feedstock, TypicalValue } from '../mix/feedstockRow.ts';
import type { FigureName } from './plan.ts';

export type Seen = 'seen second-hand' | 'from memory (unconfirmed)';

/** Where a table figure comes from: its typical value and its range may differ. `null` where there is none. */
export interface FigureStatus {
  readonly typical: Seen | null;
  readonly range: Seen | null;
}

/** The table's cell for a figure; ash is in no row. */
export function cellOf(feedstock: Feedstock, figure: FigureName): TypicalValue {
  switch (figure) {
    case 'moistureFraction':
      return feedstock.moistureFraction;
    case 'nitrogenFractionDry':
      return feedstock.nitrogenFractionDry;
    case 'carbonToNitrogen':
      return feedstock.carbonToNitrogen;
    case 'bulkDensity':
      return feedstock.bulkDensityKilogramsPerCubicMetre;
    case 'ashFractionDry':
      return { typical: null, low: null, high: null };
  }
}

const recalled: Seen = 'from memory (unconfirmed)';
const seen: Seen = 'seen second-hand';

/**
 * Status of one figure, read from the row's "seen in" cell: `S2 (ranges, BD MU)` means the row was seen in copy S2 but
 * its ranges and its bulk density are recalled; `MU (ranges S6)` the other way round.
 */
export function figureStatus(feedstock: Feedstock, figure: FigureName): FigureStatus {
  const cell = cellOf(feedstock, figure);
  const [row = '', bracket = ''] = feedstock.seenIn.replace(')', '').split(' (');
  const special = specialMarks(bracket);
  const own = special.get(figureMark[figure] ?? '');
  const typical = own ?? special.get('typical') ?? (row === 'MU' ? recalled : seen);
  const range = special.get('ranges') ?? own ?? (row === 'MU' ? recalled : seen);
  const hasRange = cell.low !== null || cell.high !== null;
  return { typical: cell.typical === null ? null : typical, range: hasRange ? range : null };
}

const figureMark: Partial<Record<FigureName, string>> = { bulkDensity: 'BD', moistureFraction: 'moisture' };

/** `ranges, BD MU` says MU of both; `ranges S6, BD MU` says S6 of the one and MU of the other. */
function specialMarks(bracket: string): Map<string, Seen> {
  const marks = new Map<string, Seen>();
  let waiting: string[] = [];
  for (const word of bracket.split(/,? +/).filter(Boolean)) {
    if (word !== 'MU' && !/^S\d/.test(word)) {
      waiting.push(word);
      continue;
    }
    for (const mark of waiting) marks.set(mark, word === 'MU' ? recalled : seen);
    waiting = [];
  }
  return marks;
}
