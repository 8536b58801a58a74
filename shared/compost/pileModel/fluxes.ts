import { waterSpecificHeat } from '../heat/specificHeat.ts';
import { windFilmCoefficient } from '../heat/surface.ts';
import { channelAreaM2 } from './channels.ts';
import { poreHumidityRatio, vapourEnthalpyJoules, waterActivity } from './condition.ts';
import type { Site } from './site.ts';
import { dryKg, type PileState } from './state.ts';
import type { Weather } from './weather.ts';
import { core, edge, zoneCount } from './zones.ts';

const secondsPerDay = 86_400;
/** Film and vapour together inside a channel, W/(m2 K) (ours). */
const channelFilm = 15;
/** Distance within the compost over which a channel draws its heat, metres (ours). */
const channelGapMetres = 0.08;
/** Water above what the material holds drains with this time constant, seconds (ours). */
const drainSeconds = 6 * 3600;

/** Air outside as the fluxes need it. */
export interface OutsideAir {
  readonly weather: Weather;
  readonly humidityRatio: number;
  readonly enthalpyJoules: number;
}

/** Moves `watts` out of a zone. */
function draw(site: Site, zone: number, watts: number, conductance: number): void {
  site.scratch.power[zone]! -= watts;
  site.scratch.stiffness[zone]! += conductance;
}

/** Heat conducted and water levelled between neighbouring shells: what leaves one enters the other. */
export function exchangeBetweenZones(state: PileState, site: Site, scale: number): void {
  const { geometry, scratch, parameters } = site;
  const areaScale = scale ** (geometry.figures.dimensions - 1);
  for (let zone = core; zone < edge; zone += 1) {
    const next = zone + 1;
    const conductivity = (scratch.conductivity[zone]! + scratch.conductivity[next]!) / 2;
    const conductance =
      (conductivity * geometry.outerFaceM2[zone]! * areaScale) / (geometry.gapMetres[zone]! * scale);
    const watts = conductance * (state.celsius[zone]! - state.celsius[next]!);
    draw(site, zone, watts, conductance);
    draw(site, next, -watts, conductance);
    const [here, there] = [dryKg(state, zone), dryKg(state, next)];
    const wetter = state.waterKg[zone]! / here - state.waterKg[next]! / there;
    const kgPerSecond = (parameters.water.levellingPerDay / secondsPerDay) * wetter * Math.min(here, there);
    const carried = kgPerSecond * waterSpecificHeat * state.celsius[kgPerSecond > 0 ? zone : next]!;
    scratch.waterGain[zone]! -= kgPerSecond;
    scratch.waterGain[next]! += kgPerSecond;
    draw(site, zone, carried, 0);
    draw(site, next, -carried, 0);
  }
}

/** Heat and vapour carried by the draught: in through the outer zones and from below, out through each zone's top. */
export function exchangeWithDraught(state: PileState, site: Site, outside: OutsideAir): void {
  const { scratch, parameters } = site;
  const { freshInletFraction: fresh, capContactFraction: cap } = parameters.air;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const through = scratch.throughAir[zone]!;
    const neighbour = zone === edge ? 0 : 1 - fresh;
    const enthalpyIn =
      neighbour === 0
        ? outside.enthalpyJoules
        : neighbour * scratch.airEnthalpy[zone + 1]! + fresh * outside.enthalpyJoules;
    const ratioIn =
      neighbour === 0
        ? outside.humidityRatio
        : neighbour * scratch.humidityRatio[zone + 1]! + fresh * outside.humidityRatio;
    gainFromAir(
      site,
      zone,
      through * (enthalpyIn - scratch.airEnthalpy[zone]!),
      through * (ratioIn - scratch.humidityRatio[zone]!),
    );
    stiffenByAir(state, site, zone, through);
    if (zone === edge) continue;
    const capped = cap * scratch.columnAir[zone]!;
    gainFromAir(
      site,
      edge,
      capped * (scratch.airEnthalpy[zone]! - scratch.airEnthalpy[edge]!),
      capped * (scratch.humidityRatio[zone]! - scratch.humidityRatio[edge]!),
    );
    stiffenByAir(state, site, edge, capped);
  }
  bookExhaust(site, outside);
}

function gainFromAir(site: Site, zone: number, watts: number, kgPerSecond: number): void {
  site.scratch.power[zone]! += watts;
  site.scratch.waterGain[zone]! += kgPerSecond;
}

function stiffenByAir(state: PileState, site: Site, zone: number, kgPerSecond: number): void {
  const ratio = site.scratch.humidityRatio[zone]!;
  const steepness = 4100 / (state.celsius[zone]! + 237) ** 2;
  const ratioPerKelvin = ratio * steepness * (1 + ratio / 0.622);
  site.scratch.stiffness[zone]! += kgPerSecond * (1006 + 2.4e6 * ratioPerKelvin);
}

/** Books what the air took away, counted at the pile's outer bound and not as the sum of the zones' own changes. */
function bookExhaust(site: Site, outside: OutsideAir): void {
  const { scratch, parameters } = site;
  const cap = parameters.air.capContactFraction;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const air = scratch.columnAir[zone]!;
    const viaCap = zone === edge ? 0 : cap;
    const enthalpyOut = (1 - viaCap) * scratch.airEnthalpy[zone]! + viaCap * scratch.airEnthalpy[edge]!;
    const ratioOut = (1 - viaCap) * scratch.humidityRatio[zone]! + viaCap * scratch.humidityRatio[edge]!;
    site.rates.lostWithAir += air * (enthalpyOut - outside.enthalpyJoules);
    site.rates.vapourKg += air * (ratioOut - outside.humidityRatio);
  }
}

/** Heat through the sides, top and base, and vapour from the damp outer skin. */
export function exchangeWithSurroundings(
  state: PileState,
  site: Site,
  outside: OutsideAir,
  scale: number,
): void {
  const { geometry, scratch, parameters } = site;
  const { figures } = geometry;
  const areaScale = scale ** (figures.dimensions - 1);
  const layer = (geometry.gapMetres[edge]! * scale) / scratch.conductivity[edge]!;
  const film = windFilmCoefficient(outside.weather.windMetresPerSecond);
  const exposed = (figures.sideAreaM2 + figures.topAreaM2) * areaScale;
  const coefficient = 1 / (1 / film + parameters.surface.wallResistance + layer);
  const celsius = state.celsius[edge]!;
  const excess = celsius - outside.weather.airCelsius;
  draw(site, edge, coefficient * exposed * excess, coefficient * exposed);
  site.rates.lostThroughSurface += coefficient * exposed * excess;

  const skinCelsius = outside.weather.airCelsius + (excess * coefficient) / film;
  const skinRatio = poreHumidityRatio(skinCelsius, waterActivity(scratch.moistureFraction[edge]!));
  const dryness = Math.max(0, skinRatio - outside.humidityRatio);
  const vapour = parameters.surface.wetSurfaceFraction * exposed * (film / 1006) * dryness;
  loseVapour(site, edge, vapour, skinCelsius);

  const base = figures.baseAreaM2 * areaScale;
  const downward =
    (base / (parameters.surface.baseResistance + layer)) * (celsius - outside.weather.groundCelsius);
  draw(site, edge, downward, base / (parameters.surface.baseResistance + layer));
  site.rates.lostToGround += downward;
}

function loseVapour(site: Site, zone: number, kgPerSecond: number, celsius: number): void {
  const watts = kgPerSecond * vapourEnthalpyJoules(celsius);
  draw(site, zone, watts, 0);
  site.scratch.waterGain[zone]! -= kgPerSecond;
  site.rates.vapourKg += kgPerSecond;
  site.rates.lostThroughSurface += watts;
}

/** Heat and vapour taken by the walls of open channels. */
export function exchangeWithChannels(state: PileState, site: Site, outside: OutsideAir): void {
  const { channels } = site.parameters;
  if (channels === null) return;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const coefficient = 1 / (1 / channelFilm + channelGapMetres / site.scratch.conductivity[zone]!);
    const conductance = coefficient * channelAreaM2(state, site, zone) * (1 - channels.warmingFraction);
    const watts = conductance * (state.celsius[zone]! - outside.weather.airCelsius);
    const activity = waterActivity(site.scratch.moistureFraction[zone]!);
    const latent = Math.max(0, watts) * channels.latentShareFraction * activity;
    const vapour = latent / vapourEnthalpyJoules(state.celsius[zone]!);
    draw(site, zone, watts, conductance);
    site.scratch.waterGain[zone]! -= vapour;
    site.rates.lostToChannels += watts;
    site.rates.vapourKg += vapour;
  }
}

/** Rain into the edge, and what is more than the material holds out of each zone. */
export function exchangeRainAndDrain(state: PileState, site: Site, outside: OutsideAir): void {
  const { geometry, scratch, parameters } = site;
  const millimetres = outside.weather.rainMillimetresPerHour * parameters.surface.rainCatchFraction;
  const rain = (millimetres * geometry.figures.topAreaM2) / 3600;
  const warmth = rain * waterSpecificHeat * Math.max(0, outside.weather.airCelsius);
  scratch.waterGain[edge]! += rain;
  draw(site, edge, -warmth, 0);
  site.rates.addedWaterKg += rain;
  site.rates.broughtByWater += warmth;
  for (let zone = 0; zone < zoneCount; zone += 1) {
    const excess = state.waterKg[zone]! - parameters.water.heldKgPerKg * dryKg(state, zone);
    if (excess <= 0) continue;
    const drained = excess / drainSeconds;
    const carried = drained * waterSpecificHeat * state.celsius[zone]!;
    scratch.waterGain[zone]! -= drained;
    draw(site, zone, carried, 0);
    site.rates.drainedKg += drained;
    site.rates.broughtByWater -= carried;
  }
}
