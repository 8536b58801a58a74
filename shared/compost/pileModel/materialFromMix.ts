import { requireBetween, requirePositive } from '../allowed.ts';
import { defaultMaterial, type MaterialParameters } from './parameters.ts';

/** What the planner knows of a mix. */
export interface MixFigures {
  readonly bulkDensityKgPerM3: number;
  readonly moistureFraction: number;
  /** Organic share of dry solids. */
  readonly organicFractionDry: number;
  readonly carbonNitrogenRatio: number;
  readonly startCelsius: number;
}

/** How a mix works at three C:N ratios; between them drawn straight over the logarithm of C:N. */
const character = [
  { ratio: 15, degradable: 0.8, fastShare: 0.5, fastRate: 0.12, slowRate: 0.06 },
  { ratio: 30, degradable: 0.6, fastShare: 0.45, fastRate: 0.1, slowRate: 0.02 },
  { ratio: 60, degradable: 0.45, fastShare: 0.25, fastRate: 0.06, slowRate: 0.01 },
] as const;

function characterAt(ratio: number): Record<keyof (typeof character)[number], number> {
  const held = Math.min(60, Math.max(15, ratio));
  const [low, high] = held <= 30 ? [character[0], character[1]] : [character[1], character[2]];
  const share = Math.log(held / low.ratio) / Math.log(high.ratio / low.ratio);
  const mix = (a: number, b: number) => a + (b - a) * share;
  return {
    ratio: held,
    degradable: mix(low.degradable, high.degradable),
    fastShare: mix(low.fastShare, high.fastShare),
    fastRate: mix(low.fastRate, high.fastRate),
    slowRate: mix(low.slowRate, high.slowRate),
  };
}

/**
 * Model parameters for a planned mix. C:N stands for how green and how well fed the mix is.
 *
 * Rule of thumb, ours, no source: rich mixes (C:N 15) work fast and long, lean ones (C:N 60) slowly; rates stay in the
 * order-of-magnitude ranges of reference 4.3. Give measured lignin or rates instead where they are known.
 * @throws RangeError when a figure is one no mix can have.
 */
export function materialFromMix(mix: MixFigures): MaterialParameters {
  requirePositive('carbonNitrogenRatio', mix.carbonNitrogenRatio);
  requireBetween('organicFractionDry', mix.organicFractionDry, 0, 1);
  const { degradable, fastShare, fastRate, slowRate } = characterAt(mix.carbonNitrogenRatio);
  return {
    ...defaultMaterial,
    bulkDensityKgPerM3: mix.bulkDensityKgPerM3,
    moistureFraction: mix.moistureFraction,
    ashFraction: 1 - mix.organicFractionDry,
    degradableFraction: degradable,
    fastShareFraction: fastShare,
    fastRatePerDay: fastRate,
    slowRatePerDay: slowRate,
    startCelsius: mix.startCelsius,
  };
}
