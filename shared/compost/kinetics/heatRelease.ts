/** A published heat figure with where it comes from and how sure that is. */
export interface HeatFigure {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly status: 'confirmed' | 'from memory (unconfirmed)';
}

/** Heat figures found in the literature; they disagree, so the choice made is named where it is used. */
export const heatFigures = {
  perOxygenFinstein: {
    value: 14.0,
    unit: 'MJ per kg oxygen',
    source: 'Finstein et al.',
    status: 'from memory (unconfirmed)',
  },
  perOxygenHaug: {
    value: 13.6,
    unit: 'MJ per kg oxygen',
    source: 'Haug, from chemical oxygen demand',
    status: 'from memory (unconfirmed)',
  },
  perOxygenMushroomCompost: {
    value: 9.8,
    unit: 'MJ per kg oxygen',
    source: 'Harper et al. 1992, measured',
    status: 'from memory (unconfirmed)',
  },
  perDegradableSolids: {
    value: 17.5,
    unit: 'MJ per kg biodegradable solids oxidised',
    source: 'a public thesis model of compost heat',
    status: 'confirmed',
  },
} as const satisfies Record<string, HeatFigure>;

/** Practical default: joules per kilogram of biodegradable solids oxidised. */
export const defaultHeatJoulesPerKg = heatFigures.perDegradableSolids.value * 1e6;

/** Heat from oxygen taken up, megajoules. @param megajoulesPerKgOxygen one of {@link heatFigures}. */
export function heatFromOxygenMegajoules(
  oxygenKg: number,
  megajoulesPerKgOxygen: number = heatFigures.perOxygenFinstein.value,
): number {
  return oxygenKg * megajoulesPerKgOxygen;
}

/** Heat output of first-order decay, watts per cubic metre. */
export function heatRateWattsPerM3(
  degradableKgPerM3: number,
  ratePerDay: number,
  joulesPerKg: number = defaultHeatJoulesPerKg,
): number {
  return (degradableKgPerM3 * ratePerDay * joulesPerKg) / 86_400;
}

/** How fast a mass with no loss would warm, kelvin a day. @param heatCapacityJoulesPerM3Kelvin volumetric heat capacity. */
export function adiabaticRiseKelvinPerDay(wattsPerM3: number, heatCapacityJoulesPerM3Kelvin: number): number {
  return (wattsPerM3 * 86_400) / heatCapacityJoulesPerM3Kelvin;
}
