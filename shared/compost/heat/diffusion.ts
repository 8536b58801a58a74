import { effectiveDiffusivityShare } from '../mix/freeAirSpace.ts';

/** Oxygen diffusivity in air, m2/s: 1.78e-5 at 0 C scaled by (T/273.15)^1.75 (from memory, unconfirmed). */
export function oxygenDiffusivity(celsius: number): number {
  return 1.78e-5 * ((celsius + 273.15) / 273.15) ** 1.75;
}

/** What a slab of compost takes up and what it starts from. */
export interface OxygenUptake {
  readonly airFilledPorosityFraction: number;
  readonly diffusivityM2PerSecond: number;
  /** Oxygen at the surface, kg per m3 of pore air. */
  readonly surfaceOxygenKgPerM3: number;
  /** Zero-order uptake, kg oxygen per m3 of compost per second. */
  readonly uptakeKgPerM3Second: number;
}

/** Depth oxygen reaches by diffusion alone, metres: sqrt(2 S^2 D C0 / q), zero-order uptake in a slab (derived). */
export function diffusionReachMetres(uptake: OxygenUptake): number {
  const effective =
    effectiveDiffusivityShare(uptake.airFilledPorosityFraction) * uptake.diffusivityM2PerSecond;
  return Math.sqrt((2 * effective * uptake.surfaceOxygenKgPerM3) / uptake.uptakeKgPerM3Second);
}
