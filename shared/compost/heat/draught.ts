export const gravity = 9.80665;

/** Viscosity of air near 55 C, Pa s (CoolProp dry air gives 1.987e-5). */
export const airViscosity = 1.95e-5;

/** Pressure that drives the chimney, pascal per metre of height: g (rho_out - rho_in), moist densities in kg/m3. */
export function stackPressurePerMetre(outsideDensity: number, insideDensity: number): number {
  return gravity * (outsideDensity - insideDensity);
}

/**
 * Permeability of a packed bed, m2: eps^3 d^2 / [150 (1-eps)^2] (Kozeny-Carman / Ergun 1952; from memory, unconfirmed).
 * @param porosityFraction air-filled porosity, 0 up to but not 1. @param grainMetres effective grain size.
 */
export function packedBedPermeability(porosityFraction: number, grainMetres: number): number {
  return (porosityFraction ** 3 * grainMetres ** 2) / (150 * (1 - porosityFraction) ** 2);
}

/** Superficial speed through a bed, m/s, by Darcy's law. */
export function darcySpeed(
  permeabilityM2: number,
  pressurePerMetre: number,
  viscosityPascalSeconds: number = airViscosity,
): number {
  return (permeabilityM2 * pressurePerMetre) / viscosityPascalSeconds;
}

/** Dry air moved, kg/s, by a superficial speed of moist air through an area. */
export function dryAirFlowKgPerSecond(
  speedMetresPerSecond: number,
  areaM2: number,
  moistDensity: number,
  humidityRatio: number,
): number {
  return (speedMetresPerSecond * areaM2 * moistDensity) / (1 + humidityRatio);
}
