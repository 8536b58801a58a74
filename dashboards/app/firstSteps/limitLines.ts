import type { MethodLimits } from '../../../shared/api/types.ts';
import { percent, temperature } from '../../common/format.ts';
import { limitLineWords as say } from './words.ts';

/** What a method means for the limits a pile starts with, in sentences, most pressing first. */
export function limitLines(limits: MethodLimits): string[] {
  const { neverHeatedDays, neverHeatedCelsius, tooLongDays, keepFromCelsius, keepToCelsius } = limits;
  const heat = (celsius: number) => temperature(celsius, 0);
  return [
    say.ceiling(heat(limits.ceilingCelsius), heat(limits.fireCelsius)),
    ...(neverHeatedDays !== null && neverHeatedCelsius !== null
      ? [say.neverHeated(heat(neverHeatedCelsius), neverHeatedDays)]
      : [say.needNotHeat]),
    ...(tooLongDays !== null ? [say.tooLong(tooLongDays)] : []),
    ...(keepFromCelsius !== null && keepToCelsius !== null
      ? [say.range(heat(keepFromCelsius), heat(keepToCelsius))]
      : []),
    say.water(percent(limits.dryBelowFraction), percent(limits.wetAboveFraction)),
    say.later,
  ];
}
