import { airViscosity, gravity, packedBedPermeability } from '../heat/draught.ts';
import { moistAirDensity } from '../psychrometrics.ts';
import type { Site } from './site.ts';
import type { PileState } from './state.ts';
import { core, edge, shoulder, zoneCount } from './zones.ts';

/** While a pile stands open its covers do not count and air finds its way in three times as easily (ours). */
const openedFactor = 3;

/**
 * Natural draught: each zone's own column of warm, moist air rises by its lightness against outside air (Darcy's law
 * through a packed bed), and what rises is drawn in through the zones outside it, part of it fresh from below.
 * @param planAreaM2 present plan area. @param outsideDensity kg/m3 of the air around the pile.
 */
export function readAirflow(state: PileState, site: Site, planAreaM2: number, outsideDensity: number): void {
  const { scratch, geometry, parameters } = site;
  const opened = state.elapsedSeconds < state.openUntilSeconds ? openedFactor : 1;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const ratio = scratch.humidityRatio[zone]!;
    const density = moistAirDensity(state.celsius[zone]!, ratio);
    const pressure = Math.max(0, gravity * (outsideDensity - density));
    const permeability = packedBedPermeability(scratch.poreFraction[zone]!, parameters.air.grainMetres);
    const speed = (parameters.air.opennessFraction * opened * permeability * pressure) / airViscosity;
    scratch.columnAir[zone] = (speed * planAreaM2 * geometry.planShare[zone]! * density) / (1 + ratio);
  }
  const throughNeighbour = 1 - parameters.air.freshInletFraction;
  const { columnAir, throughAir } = scratch;
  throughAir[core] = columnAir[core]!;
  throughAir[shoulder] = columnAir[shoulder]! + throughNeighbour * throughAir[core]!;
  throughAir[edge] = columnAir[edge]! + throughNeighbour * throughAir[shoulder]!;
}
