/** One day of a pile beside its air, as means. Null where the day was not measured. */
export interface DayMeans {
  readonly coreCelsius: number | null;
  readonly airCelsius: number | null;
}

export interface ExothermicIndex {
  /** Sum of core minus air, C day. */
  readonly index: number;
  /** Sum of the squares, C2 day. */
  readonly squared: number;
  readonly daysCounted: number;
  /** Days of the phase that could not be counted because core or air was not measured. */
  readonly daysUnknown: number;
}

/**
 * Heat given off by a pile as EXI and its square (Bernal group, from memory, unconfirmed), over the days whose mean
 * is at least `phaseFromCelsius`; null counts every day. Unmeasured days are reported, never filled in.
 */
export function exothermicIndex(days: readonly DayMeans[], phaseFromCelsius: number | null): ExothermicIndex {
  let [index, squared, daysCounted, daysUnknown] = [0, 0, 0, 0];
  for (const { coreCelsius, airCelsius } of days) {
    if (coreCelsius !== null && phaseFromCelsius !== null && coreCelsius < phaseFromCelsius) continue;
    if (coreCelsius === null || airCelsius === null) {
      daysUnknown += 1;
      continue;
    }
    index += coreCelsius - airCelsius;
    squared += (coreCelsius - airCelsius) ** 2;
    daysCounted += 1;
  }
  return { index, squared, daysCounted, daysUnknown };
}
