/** The three temperatures that fix a cardinal-temperature curve, Celsius. */
export interface CardinalTemperatures {
  readonly minimumCelsius: number;
  readonly optimumCelsius: number;
  readonly maximumCelsius: number;
}

/** Richard & Walker 1998, used again by Baptista et al. 2010. Status: from memory (unconfirmed). */
export const compostingCardinalTemperatures: CardinalTemperatures = {
  minimumCelsius: 5,
  optimumCelsius: 58.6,
  maximumCelsius: 71.6,
};

/** The rounded set some papers print beside it; kept for comparison. Status: from memory (unconfirmed). */
export const roundedCardinalTemperatures: CardinalTemperatures = {
  minimumCelsius: 5,
  optimumCelsius: 58,
  maximumCelsius: 72,
};

/**
 * Cardinal temperature model with inflection (Rosso et al. 1993, form confirmed by lookup): share 0..1 of the rate at
 * the optimum, 0 outside the limits. The curve is only a curve when the optimum lies nearer the maximum.
 * @throws RangeError when the three temperatures are out of order or the optimum is not above their midpoint.
 */
export function ctmiTemperatureFactor(
  celsius: number,
  cardinal: CardinalTemperatures = compostingCardinalTemperatures,
): number {
  const { minimumCelsius: low, optimumCelsius: best, maximumCelsius: high } = cardinal;
  if (!(best > (low + high) / 2 && high > best)) {
    throw new RangeError(
      `optimumCelsius ${best} must lie above the midpoint of ${low} and ${high}, and below ${high}`,
    );
  }
  if (celsius <= low || celsius >= high) return 0;
  const above = celsius - low;
  const numerator = (celsius - high) * above * above;
  const span = best - low;
  return numerator / (span * (span * (celsius - best) - (best - high) * (best + low - 2 * celsius)));
}

const haugWarmBase = 1.066;
const haugHotBase = 1.21;

/**
 * Haug's temperature factor k(T)/k(20 C) = 1.066^(T-20) - 1.21^(T-60), never below 0 (Haug 1993; confirmed second-hand).
 *
 * It peaks at 71.55 C, well above measured optima: a pile driven by it alone heats past real piles unless water, air
 * or ventilation stops it. The pile model therefore defaults to {@link ctmiTemperatureFactor}.
 */
export function haugTemperatureFactor(celsius: number): number {
  return Math.max(0, haugWarmBase ** (celsius - 20) - haugHotBase ** (celsius - 60));
}

const logWarm = Math.log(haugWarmBase);
const logHot = Math.log(haugHotBase);

/** Temperature at which Haug's factor is largest, Celsius (closed form, computed: 71.55). */
export const haugPeakCelsius = (Math.log(logWarm / logHot) - 20 * logWarm + 60 * logHot) / (logHot - logWarm);

/** Temperature at which Haug's factor reaches zero, Celsius (closed form, computed: 80.18). */
export const haugZeroCelsius = (60 * logHot - 20 * logWarm) / (logHot - logWarm);
