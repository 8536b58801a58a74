import type { Banded } from './banded.ts';
import type { PileFit } from './fitPile.ts';
import { at } from './reducedModel.ts';
import type { Belief } from './unscented.ts';

/** The learnt figures in words a grower can use, each with its 80 % band. */
export interface LearntFigures {
  /** Heat left, as kelvin the pile would still warm if it lost none. */
  readonly heatLeftKelvin: Banded;
  readonly ratePerDay: Banded;
  /** Share of its warmth above the air the core loses in a day. */
  readonly lossPerDay: Banded;
  /** Temperature at which this pile's microbes stop. */
  readonly limitCelsius: Banded;
  /** Wet-basis moisture now, 0..1: estimated from heat made unless a probe said. */
  readonly moistureFraction: Banded;
}

const tenthDeviation = 1.2816;

function bandOf(belief: Belief, part: number, toPlain: (value: number) => number): Banded {
  const deviation = Math.sqrt(belief.covariance.get(part, part)) * tenthDeviation;
  const middle = belief.mean[part]!;
  return { low: toPlain(middle - deviation), middle: toPlain(middle), high: toPlain(middle + deviation) };
}

/** Reads the learnt figures out of a fit. */
export function learntFigures({ belief }: PileFit): LearntFigures {
  const [fast, slow] = [bandOf(belief, at.fastHeat, Math.exp), bandOf(belief, at.slowHeat, Math.exp)];
  return {
    heatLeftKelvin: {
      low: fast.low + slow.low,
      middle: fast.middle + slow.middle,
      high: fast.high + slow.high,
    },
    ratePerDay: bandOf(belief, at.rate, Math.exp),
    lossPerDay: bandOf(belief, at.loss, Math.exp),
    limitCelsius: bandOf(belief, at.limit, (value) => value),
    moistureFraction: bandOf(
      belief,
      at.water,
      (water) => Math.max(0, water) / (Math.max(0, water) + belief.mean[at.dry]!),
    ),
  };
}
