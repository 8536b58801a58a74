/** A sample taken beside the probe: what the probe said, and the water found by weighing and drying. */
export interface MoistureSample {
  readonly raw: number;
  readonly wetBasisFraction: number;
}

export interface MoistureFit {
  /** Wet-basis fraction = intercept + slope x raw. */
  readonly slope: number;
  readonly intercept: number;
  /** Measured minus fitted, in the order of the samples. */
  readonly residuals: readonly number[];
  /** Residual standard deviation (n - 2); null with two samples, which fit any line. */
  readonly residualDeviation: number | null;
  readonly rawFrom: number;
  readonly rawTo: number;
}

/**
 * Least-squares line through weighed and dried samples. Throws `RangeError` with fewer than two samples or when all
 * raw values are the same.
 */
export function fitMoisture(samples: readonly MoistureSample[]): MoistureFit {
  const raws = samples.map((sample) => sample.raw);
  const [rawFrom, rawTo] = [Math.min(...raws), Math.max(...raws)];
  if (samples.length < 2 || !(rawTo > rawFrom)) {
    throw new RangeError(`samples must hold at least two different raw values; got ${JSON.stringify(raws)}`);
  }
  const meanRaw = mean(raws);
  const meanWet = mean(samples.map((sample) => sample.wetBasisFraction));
  const cross = sum(samples.map((sample) => (sample.raw - meanRaw) * (sample.wetBasisFraction - meanWet)));
  const slope = cross / sum(raws.map((raw) => (raw - meanRaw) ** 2));
  const intercept = meanWet - slope * meanRaw;
  const residuals = samples.map((sample) => sample.wetBasisFraction - (intercept + slope * sample.raw));
  return { slope, intercept, residuals, residualDeviation: deviation(residuals), rawFrom, rawTo };
}

/** A calibrated moisture and whether the raw value lies inside the samples it was calibrated on. */
export interface CalibratedMoisture {
  readonly wetBasisFraction: number;
  readonly insideCalibration: boolean;
}

/** Water content for a raw value by the fitted line, held inside 0 to 1. */
export function applyMoistureFit(raw: number, fit: MoistureFit): CalibratedMoisture {
  const wetBasisFraction = Math.min(1, Math.max(0, fit.intercept + fit.slope * raw));
  return { wetBasisFraction, insideCalibration: raw >= fit.rawFrom && raw <= fit.rawTo };
}

function deviation(residuals: readonly number[]): number | null {
  return residuals.length < 3
    ? null
    : Math.sqrt(sum(residuals.map((one) => one ** 2)) / (residuals.length - 2));
}

function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
