import { expect } from 'vitest';
import { alarmRatesFromDay, bearableRates } from '../../shared/alarms/rates.ts';
import { contrastRatio, leastContrast } from '../../shared/units/contrast.ts';
import { capitalHeightMillimetres } from '../../shared/units/visualAngle.ts';
import type { CheckRow } from './checkRow.ts';

function row(id: string, source: string, check: () => void): CheckRow {
  return { id, source, status: 'R', check };
}

/** Compares to the last printed digit. */
function expectPrinted(values: readonly number[], printed: readonly string[]): void {
  const digits = printed.map((text) => text.split('.')[1]?.length ?? 0);
  expect(values.map((value, index) => value.toFixed(digits[index]!))).toEqual(printed);
}

export const rows: CheckRow[] = [
  row('C-55', 'IEC 62682', () => {
    expect(alarmRatesFromDay(144)).toEqual({ perDay: 144, perHour: 6, perTenMinutes: 1 });
    expect(bearableRates.mostThatCanBeManaged).toEqual({ perDay: 288, perHour: 12, perTenMinutes: 2 });
  }),
  row('C-56', 'WCAG 2.2', () => {
    const ratios = ['#000', '#767676', '#777777'].map((colour) => contrastRatio(colour, '#fff'));
    expectPrinted(ratios, ['21', '4.54', '4.48']);
    expect(ratios.map((ratio) => ratio >= leastContrast.text)).toEqual([true, true, false]);
  }),
  row('C-57', 'WCAG 2.2', () => {
    const ratios = ['#949494', '#959595'].map((colour) => contrastRatio(colour, '#fff'));
    expectPrinted(ratios, ['3.03', '2.995']);
    expect(ratios.map((ratio) => ratio >= leastContrast.graphics)).toEqual([true, false]);
  }),
  row('C-58', 'WCAG 2.2', () => {
    const onWhite = ['#ff0000', '#ffff00', '#008000', '#0000ff'].map((colour) =>
      contrastRatio('#fff', colour),
    );
    expectPrinted(
      [...onWhite, contrastRatio('#ff0000', '#000')],
      ['3.9985', '1.0738', '5.1374', '8.5925', '5.2520'],
    );
  }),
  row('C-59', 'formula H-12', () => {
    const heights = [16, 20, 22].map((minutes) => capitalHeightMillimetres(5, minutes));
    expectPrinted(heights, ['23.27', '29.09', '32.00']);
  }),
  row('C-60', 'formula H-12', () => {
    const heights = [16, 20].map((minutes) => capitalHeightMillimetres(0.6, minutes));
    expectPrinted(heights, ['2.79', '3.49']);
  }),
];
