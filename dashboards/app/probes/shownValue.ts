import type { Quantity } from '../../../shared/yard/yard.ts';
import { percent, temperature } from '../../common/format.ts';
import { measures } from '../../common/words.ts';

/** A reading with its unit, by what its channel measures. */
export function shownValue(value: number, quantity: Quantity): string {
  switch (quantity) {
    case 'temperature':
      return temperature(value);
    case 'voltage':
      return measures.volts(value.toFixed(2));
    case 'other':
      return value.toFixed(2);
    default:
      // A battery that sends volts by a name that says charge.
      return value > 1.5 ? measures.volts(value.toFixed(2)) : percent(value);
  }
}
