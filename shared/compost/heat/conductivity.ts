import { type PhaseFractions, phaseFractions } from './phases.ts';

/** Conductivities of the phases, W/(m K) (de Vries-type values; from memory, unconfirmed). */
export const phaseConductivity = { water: 0.63, solids: 0.25, air: 0.027 } as const;

function sumOver(
  fractions: PhaseFractions,
  term: (fraction: number, conductivity: number) => number,
): number {
  return (
    term(fractions.water, phaseConductivity.water) +
    term(fractions.solids, phaseConductivity.solids) +
    term(fractions.air, phaseConductivity.air)
  );
}

/** Conductivity of compost by three mixing rules, W/(m K). */
export interface ConductivityBounds {
  /** Upper bound; inside the measured ranges and also stands in for heat carried by vapour: the default. */
  readonly parallel: number;
  readonly geometric: number;
  /** Lower bound. */
  readonly series: number;
}

/**
 * Conductivity mixing bounds from bulk density, wet-basis moisture and organic fraction of dry solids. Mixing rules are
 * ours; they fall in the ranges measured by Ahn, Sauer, Richard & Glanville 2009 (confirmed).
 */
export function conductivityBounds(
  bulkDensityKgPerM3: number,
  moistureFraction: number,
  organicFraction: number,
): ConductivityBounds {
  const fractions = phaseFractions(bulkDensityKgPerM3, moistureFraction, organicFraction);
  return {
    parallel: sumOver(fractions, (fraction, k) => fraction * k),
    geometric: Math.exp(sumOver(fractions, (fraction, k) => fraction * Math.log(k))),
    series: 1 / sumOver(fractions, (fraction, k) => fraction / k),
  };
}
