import { medianOfSorted, normalConsistency } from './median.ts';
import { requireFinite } from './requireFinite.ts';

export interface HampelOptions {
  /** Neighbours looked at on each side; the window is cut short at the ends. */
  readonly neighbours: number;
  /** How many spreads from the median of the window count as too far. */
  readonly threshold: number;
  /**
   * Smallest spread believed, in the unit of the values: the resolution of the sensor. With 0 the test is strict, and
   * a quantised probe that repeats one value has any departure flagged.
   */
  readonly resolutionFloor: number;
}

export interface HampelPoint {
  readonly median: number;
  /** Distance from the median beyond which the value is flagged. */
  readonly limit: number;
  readonly outlier: boolean;
}

export const hampelDefaults: HampelOptions = { neighbours: 3, threshold: 3, resolutionFloor: 0.0625 };

/**
 * Hampel identifier: one result per value, in order. Source: reference pack 8.1 (MathWorks documentation seen;
 * Davies & Gather 1993 from memory). The default floor is one step of a DS18B20 at 12 bits (our choice).
 */
export function hampel(values: ArrayLike<number>, options: Partial<HampelOptions> = {}): HampelPoint[] {
  const { neighbours, threshold, resolutionFloor } = { ...hampelDefaults, ...options };
  requireFinite('values', values);
  requireFinite('neighbours, threshold, resolutionFloor', [neighbours, threshold, resolutionFloor]);
  const series = Float64Array.from(values);
  return Array.from(series, (value, index) => {
    const window = series.slice(Math.max(0, index - neighbours), index + neighbours + 1).sort();
    const centre = medianOfSorted(window);
    const spread = normalConsistency * medianOfSorted(window.map((each) => Math.abs(each - centre)).sort());
    const limit = threshold * Math.max(spread, resolutionFloor);
    return { median: centre, limit, outlier: Math.abs(value - centre) > limit };
  });
}

/** Places of the values the Hampel identifier flags. */
export function hampelOutliers(values: ArrayLike<number>, options: Partial<HampelOptions> = {}): number[] {
  return hampel(values, options).flatMap((point, index) => (point.outlier ? [index] : []));
}
