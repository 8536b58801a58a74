import type { MethodLimits } from '../../../shared/api/types.ts';
import { percent, temperature } from '../../common/format.ts';

/** What a method means for the limits a pile starts with, in sentences, most pressing first. */
export function limitLines(limits: MethodLimits): string[] {
  const { neverHeatedDays, neverHeatedCelsius, tooLongDays, keepFromCelsius, keepToCelsius } = limits;
  const heat = (celsius: number) => temperature(celsius, 0);
  return [
    `Above ${heat(limits.ceilingCelsius)} in its core you are told; from ${heat(limits.fireCelsius)} on it is a matter for the fire service.`,
    ...(neverHeatedDays !== null && neverHeatedCelsius !== null
      ? [`If it has not passed ${heat(neverHeatedCelsius)} after ${neverHeatedDays} days, you are told.`]
      : ['It need not get hot.']),
    ...(tooLongDays !== null
      ? [`More than ${tooLongDays} hot days after its heat record is complete are too many.`]
      : []),
    ...(keepFromCelsius !== null && keepToCelsius !== null
      ? [
          `Once it is past its heat, or has worms: between ${heat(keepFromCelsius)} and ${heat(keepToCelsius)}.`,
        ]
      : []),
    `Drier than ${percent(limits.dryBelowFraction)} water is too dry, wetter than ${percent(limits.wetAboveFraction)} too wet.`,
    'Every number can be changed later, for each pile.',
  ];
}
