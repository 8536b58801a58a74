import { metabolicWaterKgPerKg } from '../heat/evaporation.ts';
import { defaultHeatJoulesPerKg } from '../kinetics/heatRelease.ts';
import { type CardinalTemperatures, compostingCardinalTemperatures } from '../kinetics/temperatureFactor.ts';
import type { PileShape } from './shape.ts';

/** What the pile was built from. Fractions 0..1; rates at the best temperature, water and air. */
export interface MaterialParameters {
  /** Wet, before settling. */
  readonly bulkDensityKgPerM3: number;
  /** Wet basis. */
  readonly moistureFraction: number;
  readonly ashFraction: number;
  /** Share of the volatile solids microbes can use within about a year. */
  readonly degradableFraction: number;
  /** Share of the degradable part that is quick: sugars, starch, young green tissue. */
  readonly fastShareFraction: number;
  /** Published order 0.05-0.3 /d hot and moist (from memory, unconfirmed). */
  readonly fastRatePerDay: number;
  /** Published order 0.002-0.02 /d (from memory, unconfirmed). */
  readonly slowRatePerDay: number;
  /** Microbes ready to work at the start, share of what the pile can carry; less is a longer lag. */
  readonly inoculumFraction: number;
  readonly startCelsius: number;
}

/** How warmth drives the microbes. `haug` peaks at 71.6 C and is there for comparison and for over-hot scenarios. */
export type TemperatureResponse =
  | { readonly kind: 'ctmi'; readonly cardinal: CardinalTemperatures }
  | { readonly kind: 'haug' };

export interface KineticParameters {
  readonly response: TemperatureResponse;
  /** Strength of the cool-loving microbes (best at 33 C, none above 48 C) beside the hot ones. Ours. */
  readonly mesophilicShareFraction: number;
  /** How fast the microbes multiply at 30 C and above, per day. Ours: gives the usual half to two days of lag. */
  readonly growthPerDay: number;
  /**
   * Share of the microbes lost each day at 66 C, doubling every 3 K. Ours: makes hot piles hover in the sixties, as
   * measured (rates fall off from 64 C; Suler & Finstein 1977, confirmed), rather than sit at the maximum.
   */
  readonly dieOffPerDayAt66Celsius: number;
  readonly heatJoulesPerKg: number;
  /** kg oxygen per kg degraded: 1.3-1.4 (practical default, computed from formulas). */
  readonly oxygenKgPerKg: number;
  readonly waterKgPerKg: number;
  readonly oxygenHalfSaturationFraction: number;
  /** Non-living oxidation of dry, hot, open matter: rate at 80 C of all organic matter, per day. 0 switches it off. */
  readonly chemicalRatePerDayAt80Celsius: number;
  readonly chemicalActivationJoulesPerMole: number;
}

export interface AirParameters {
  /** Effective grain that sets how easily air passes; small because fines and films of water count most. Ours. */
  readonly grainMetres: number;
  /** 1 free sides and top; less behind closed walls or under a cover. */
  readonly opennessFraction: number;
  /** Share of a shell's air that comes fresh through the base or channels rather than through the next shell out. */
  readonly freshInletFraction: number;
  /** Share of the inner shells' exhaust that cools (and drops water) in the edge on its way out. */
  readonly capContactFraction: number;
}

export interface SurfaceParameters {
  /** Thermal resistance of walls or cover on the sides and top, m2 K/W. */
  readonly wallResistance: number;
  /** Resistance between the base and the ground or pallet air below, m2 K/W. */
  readonly baseResistance: number;
  /** Share of the outer surface that acts as open water; skins dry, so small. Ours. */
  readonly wetSurfaceFraction: number;
  /** Share of rain on the plan area that gets in. */
  readonly rainCatchFraction: number;
}

/** Vertical open channels. Before the pipes are pulled only their slots are open. */
export interface ChannelParameters {
  readonly count: number;
  readonly radiusMetres: number;
  /** Share of the channel wall open to the compost while the pipe is in. */
  readonly pipeOpenFraction: number;
  /** How far channel air has warmed to the compost on the way up, 0..1. Ours. */
  readonly warmingFraction: number;
  /** Part of the heat a channel takes that leaves as vapour. Ours. */
  readonly latentShareFraction: number;
}

export interface WaterParameters {
  /** Most water held against draining, kg per kg dry solids. */
  readonly heldKgPerKg: number;
  /** Levelling of water between neighbouring shells, per day. Ours. */
  readonly levellingPerDay: number;
}

export interface SettlingParameters {
  /** Volume lost to self-weight alone. Ours: with the mass lost it gives the 25-50 % left that handbooks report. */
  readonly compactionFraction: number;
  readonly compactionDays: number;
}

/** Everything a pile model needs. Build one with {@link pileParameters}. */
export interface PileParameters {
  readonly shape: PileShape;
  readonly material: MaterialParameters;
  readonly kinetics: KineticParameters;
  readonly air: AirParameters;
  readonly surface: SurfaceParameters;
  readonly channels: ChannelParameters | null;
  readonly water: WaterParameters;
  readonly settling: SettlingParameters;
}

/** A well-mixed garden and kitchen blend near C:N 30. Ours, inside the ranges of the reference pack. */
export const defaultMaterial: MaterialParameters = {
  bulkDensityKgPerM3: 450,
  moistureFraction: 0.6,
  ashFraction: 0.15,
  degradableFraction: 0.6,
  fastShareFraction: 0.45,
  fastRatePerDay: 0.1,
  slowRatePerDay: 0.02,
  inoculumFraction: 0.2,
  startCelsius: 15,
};

export const defaultKinetics: KineticParameters = {
  response: { kind: 'ctmi', cardinal: compostingCardinalTemperatures },
  mesophilicShareFraction: 0.4,
  growthPerDay: 3,
  dieOffPerDayAt66Celsius: 1,
  heatJoulesPerKg: defaultHeatJoulesPerKg,
  oxygenKgPerKg: 1.35,
  waterKgPerKg: metabolicWaterKgPerKg,
  oxygenHalfSaturationFraction: 0.02,
  chemicalRatePerDayAt80Celsius: 0,
  chemicalActivationJoulesPerMole: 90_000,
};

export const defaultAir: AirParameters = {
  grainMetres: 0.0015,
  opennessFraction: 1,
  freshInletFraction: 0.4,
  capContactFraction: 0.2,
};

export const defaultSurface: SurfaceParameters = {
  wallResistance: 0.1,
  baseResistance: 0.5,
  wetSurfaceFraction: 0.06,
  rainCatchFraction: 0.5,
};

/** Six 100 mm channels, as the usual static cage has. */
export const defaultChannels: ChannelParameters = {
  count: 6,
  radiusMetres: 0.05,
  pipeOpenFraction: 0.3,
  warmingFraction: 0.5,
  latentShareFraction: 0.6,
};

export const defaultWater: WaterParameters = { heldKgPerKg: 3.2, levellingPerDay: 0.02 };

export const defaultSettling: SettlingParameters = { compactionFraction: 0.2, compactionDays: 5 };

/** What differs from the defaults; every group may be given in part. */
export interface PileChoices {
  readonly shape: PileShape;
  readonly material?: Partial<MaterialParameters>;
  readonly kinetics?: Partial<KineticParameters>;
  readonly air?: Partial<AirParameters>;
  readonly surface?: Partial<SurfaceParameters>;
  readonly channels?: Partial<ChannelParameters>;
  readonly water?: Partial<WaterParameters>;
  readonly settling?: Partial<SettlingParameters>;
}

/** Parameters from choices over the documented defaults. No `channels` means the pile has none. */
export function pileParameters(choices: PileChoices): PileParameters {
  return {
    shape: choices.shape,
    material: { ...defaultMaterial, ...choices.material },
    kinetics: { ...defaultKinetics, ...choices.kinetics },
    air: { ...defaultAir, ...choices.air },
    surface: { ...defaultSurface, ...choices.surface },
    channels: choices.channels ? { ...defaultChannels, ...choices.channels } : null,
    water: { ...defaultWater, ...choices.water },
    settling: { ...defaultSettling, ...choices.settling },
  };
}
