const stefanBoltzmann = 5.670374419e-8;

/** Forced convection, wind below 5 m/s, W/(m2 K): 5.7 + 3.8 v; includes some radiation (McAdams 1954; from memory). */
export function windFilmCoefficient(windMetresPerSecond: number): number {
  return 5.7 + 3.8 * windMetresPerSecond;
}

/** Turbulent free convection, W/(m2 K) (ASHRAE Fundamentals; from memory, unconfirmed). */
export function freeConvectionCoefficient(
  surface: 'vertical' | 'warm-top',
  differenceKelvin: number,
): number {
  return (surface === 'vertical' ? 1.31 : 1.52) * Math.cbrt(Math.abs(differenceKelvin));
}

/** Radiation linearised about a mean temperature, W/(m2 K): 4 eps sigma T^3 (physics). */
export function radiationCoefficient(meanCelsius: number, emissivity = 0.9): number {
  return 4 * emissivity * stefanBoltzmann * (meanCelsius + 273.15) ** 3;
}

/** Overall coefficient through an outer layer and its film, W/(m2 K): 1/(1/h + d/k). */
export function layerCoefficient(
  filmCoefficient: number,
  thicknessMetres: number,
  conductivityWattsPerMetreKelvin: number,
): number {
  return 1 / (1 / filmCoefficient + thicknessMetres / conductivityWattsPerMetreKelvin);
}

/** Centre above surface in a long cylinder heated evenly, kelvin: q R^2 / (4 k). */
export function cylinderCentreRiseKelvin(
  wattsPerM3: number,
  radiusMetres: number,
  conductivityWattsPerMetreKelvin: number,
): number {
  return (wattsPerM3 * radiusMetres ** 2) / (4 * conductivityWattsPerMetreKelvin);
}

/** First zero of the Bessel function J0, squared: sets how slowly a cylinder cools. */
const firstBesselZeroSquared = 5.783;

/** Slowest cooling time constant of a long cylinder with its surface held, days: R^2 / (5.783 alpha). */
export function cylinderCoolingDays(radiusMetres: number, diffusivityM2PerSecond: number): number {
  return radiusMetres ** 2 / (firstBesselZeroSquared * diffusivityM2PerSecond) / 86_400;
}
