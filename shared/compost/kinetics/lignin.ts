/**
 * Biodegradable fraction of volatile solids from lignin in per cent of volatile solids: 0.830 - 0.028 X, held to
 * 0..0.83 (Chandler et al. 1980, an anaerobic-digestion fit reused for compost; coefficients from memory, unconfirmed).
 * Aerobic fungi can pass it over long times.
 */
export function biodegradableFraction(ligninPercentOfVolatileSolids: number): number {
  return Math.min(0.83, Math.max(0, 0.83 - 0.028 * ligninPercentOfVolatileSolids));
}
