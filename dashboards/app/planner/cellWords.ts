import type { Feedstock, TypicalValue } from '../../../shared/compost/mix/feedstockRow.ts';

/** `C:N 14 (12-15), moisture 37 % (22-46), 513 kg/m3; seen second-hand`: a row of the table in one line. */
export function cellWords(feedstock: Feedstock): string {
  const parts = [
    words('C:N', feedstock.carbonToNitrogen, 1, ''),
    words('moisture', feedstock.moistureFraction, 100, ' %'),
    words('N', feedstock.nitrogenFractionDry, 100, ' %'),
    words('', feedstock.bulkDensityKilogramsPerCubicMetre, 1, ' kg/m3'),
  ];
  return `${parts.filter(Boolean).join(', ')}; ${feedstock.status}`;
}

function words(title: string, { typical, low, high }: TypicalValue, scale: number, unit: string): string {
  const show = (value: number) => String(Number((value * scale).toPrecision(3)));
  const range = low === null || high === null ? null : `${show(low)}-${show(high)}`;
  if (typical === null && range === null) return `${title || 'bulk density'} not known`.trim();
  const value = typical === null ? `${range}${unit}` : `${show(typical)}${unit}${range ? ` (${range})` : ''}`;
  return `${title} ${value}`.trim();
}
