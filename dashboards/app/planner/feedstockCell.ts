import type { Feedstock, TypicalValue } from '../../../shared/compost/mix/feedstockRow.ts';
import { text } from './words.ts';

/** `C:N 14 (12-15), moisture 37 % (22-46), 513 kg/m3; seen second-hand`: a row of the table in one line. */
export function feedstockCell(feedstock: Feedstock): string {
  const parts = [
    cell(text.ratioIs, text.ratioUnknown, feedstock.carbonToNitrogen, 1),
    cell(text.moistureIs, text.moistureUnknown, feedstock.moistureFraction, 100),
    cell(text.nitrogenIs, text.nitrogenUnknown, feedstock.nitrogenFractionDry, 100),
    cell(text.densityIs, text.densityUnknown, feedstock.bulkDensityKilogramsPerCubicMetre, 1),
  ];
  return `${parts.join(', ')}; ${feedstock.status}`;
}

function cell(
  say: (value: string) => string,
  unknown: string,
  { typical, low, high }: TypicalValue,
  scale: number,
): string {
  const show = (value: number) => String(Number((value * scale).toPrecision(3)));
  const hasRange = low !== null && high !== null;
  if (typical === null) return hasRange ? say(text.onlyRange(show(low), show(high))) : unknown;
  return hasRange ? text.withRange(say(show(typical)), show(low), show(high)) : say(show(typical));
}
