import { phaseConductivity } from '../heat/conductivity.ts';
import { phaseDensity } from '../heat/phases.ts';
import { humidityRatioFromVapourPressure, seaLevelPressurePascal } from '../psychrometrics.ts';
import { saturationPressure } from '../saturationPressure.ts';
import type { Site } from './site.ts';
import { dryKg, type PileState, volumeM3 } from './state.ts';
import { zoneCount } from './zones.ts';

/** Vapour never fills more than this share of the pore air: above it the water simply boils away. */
const mostVapourShare = 0.9;

/** Joules per kg dry air at a temperature and humidity ratio; the same form as `moistAirEnthalpy`, in joules. */
export function airEnthalpyJoules(celsius: number, humidityRatio: number): number {
  return 1006 * celsius + vapourEnthalpyJoules(celsius) * humidityRatio;
}

/** Joules per kg of water vapour, liquid at 0 C as zero. */
export function vapourEnthalpyJoules(celsius: number): number {
  return 2.501e6 + 1860 * celsius;
}

/** How wet material feels to the air in it: near 1 until it is quite dry (sorption of plant matter; form ours). */
export function waterActivity(moistureFraction: number): number {
  return 1 - Math.exp(-12 * moistureFraction);
}

/** Humidity ratio of air that has come into balance with material. */
export function poreHumidityRatio(celsius: number, activity: number): number {
  const pressure = Math.min(activity * saturationPressure(celsius), mostVapourShare * seaLevelPressurePascal);
  return humidityRatioFromVapourPressure(pressure);
}

/** Works out what each zone is like now: volume, moisture, pores, conductivity and the air in it. */
export function readCondition(state: PileState, site: Site): void {
  const { scratch, geometry, parameters } = site;
  const volume = volumeM3(state, parameters);
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const dry = dryKg(state, zone);
    const water = state.waterKg[zone]!;
    const ash = state.ashKg[zone]!;
    const zoneVolume = volume * geometry.volumeShare[zone]!;
    const waterShare = water / phaseDensity.water / zoneVolume;
    const solidShare = ((dry - ash) / phaseDensity.organic + ash / phaseDensity.ash) / zoneVolume;
    const pores = Math.max(0.01, 1 - waterShare - solidShare);
    const moisture = water / (water + dry);
    scratch.volumeM3[zone] = zoneVolume;
    scratch.moistureFraction[zone] = moisture;
    scratch.poreFraction[zone] = pores;
    scratch.conductivity[zone] =
      waterShare * phaseConductivity.water +
      solidShare * phaseConductivity.solids +
      pores * phaseConductivity.air;
    const ratio = poreHumidityRatio(state.celsius[zone]!, waterActivity(moisture));
    scratch.humidityRatio[zone] = ratio;
    scratch.airEnthalpy[zone] = airEnthalpyJoules(state.celsius[zone]!, ratio);
  }
}
