/**
 * Piles with a known character, as parameters and what people do to them. Used by tests, plots, the demonstration yard
 * and the planner's examples. All are ours: they sit inside the ranges of reference sections 4.3, 7.1 and 7.4.
 */
import type { Intervention } from './interventions.ts';
import { type MaterialParameters, type PileParameters, pileParameters } from './parameters.ts';

/** A named pile and how it is tended. */
export interface Scenario {
  readonly name: string;
  readonly parameters: PileParameters;
  readonly interventions: readonly Intervention[];
}

const day = 86_400;
/** Wire panel of 3.81 m rolled up: 1.39 m3 (reference GEO-01). */
const cageShape = { kind: 'cylinder', radiusMetres: 0.6064, heightMetres: 1.2 } as const;
/** Wire lined with cloth, on a pallet. */
const cageSurface = { wallResistance: 0.2, baseResistance: 0.7 } as const;

/** Water by litres every other day from the first. */
export function wateringEveryOtherDay(litres: number, days: number): Intervention[] {
  const times = Math.floor(days / 2);
  return Array.from({ length: times }, (_, index) => ({
    atSeconds: (1 + 2 * index) * day,
    kind: 'water',
    litres,
    celsius: 15,
  }));
}

const pullOnDayFive: Intervention = { atSeconds: 5 * day, kind: 'pull-channels' };

/** Green, rich and fresh: poultry litter and grass with chips, C:N about 20. */
export const richFreshMaterial: Partial<MaterialParameters> = {
  bulkDensityKgPerM3: 580,
  moistureFraction: 0.62,
  degradableFraction: 0.8,
  fastShareFraction: 0.5,
  fastRatePerDay: 0.12,
  slowRatePerDay: 0.06,
};

/**
 * A material after it has been composted hot for some weeks elsewhere: most of the quick part, and some of the slow,
 * is gone, and what is left of the slow part is the slower half.
 */
export function precomposted(material: MaterialParameters, days: number): MaterialParameters {
  const fast = material.fastShareFraction * Math.exp(-material.fastRatePerDay * days);
  const slow = (1 - material.fastShareFraction) * Math.exp(-material.slowRatePerDay * days);
  const kept = fast + slow;
  const degradable = material.degradableFraction * kept;
  const lasting = 1 - material.degradableFraction;
  const organicLeft = degradable + lasting;
  const ash = material.ashFraction / (material.ashFraction + (1 - material.ashFraction) * organicLeft);
  return {
    ...material,
    ashFraction: ash,
    degradableFraction: degradable / organicLeft,
    fastShareFraction: fast / kept,
    slowRatePerDay: material.slowRatePerDay / 2,
  };
}

/** Well-mixed garden bin of 1 m3 with slatted sides, never turned. */
export const gardenBin: Scenario = {
  name: 'garden bin 1 m3',
  parameters: pileParameters({
    shape: { kind: 'box', widthMetres: 1, lengthMetres: 1, heightMetres: 1 },
    air: { opennessFraction: 0.6 },
    surface: { wallResistance: 0.12, wetSurfaceFraction: 0.03 },
  }),
  interventions: [],
};

/** Static cage with an ordinary leafy mix, soaked, with channels. */
export const ordinaryCage: Scenario = {
  name: 'cage 1.4 m3, ordinary mix',
  parameters: pileParameters({
    shape: cageShape,
    material: { bulkDensityKgPerM3: 480, moistureFraction: 0.68 },
    surface: cageSurface,
    channels: {},
  }),
  interventions: [pullOnDayFive, ...wateringEveryOtherDay(2, 120)],
};

/** The trade's warning: a rich fresh mix put straight into a cage. */
export const freshRichCage: Scenario = {
  name: 'cage 1.4 m3, fresh rich mix',
  parameters: pileParameters({
    shape: cageShape,
    material: richFreshMaterial,
    surface: cageSurface,
    channels: {},
  }),
  interventions: [pullOnDayFive, ...wateringEveryOtherDay(5, 120)],
};

/** The same without channels. */
export const freshRichCageWithoutChannels: Scenario = {
  name: 'cage 1.4 m3, fresh rich mix, no channels',
  parameters: pileParameters({ shape: cageShape, material: richFreshMaterial, surface: cageSurface }),
  interventions: wateringEveryOtherDay(5, 120),
};

/** The same material after the worth of two hot weeks in a turned heap. */
export const precompostedCage: Scenario = {
  name: 'cage 1.4 m3, same mix pre-composted two weeks',
  parameters: {
    ...freshRichCage.parameters,
    material: precomposted(freshRichCage.parameters.material, 14),
  },
  interventions: [pullOnDayFive, ...wateringEveryOtherDay(2, 120)],
};

const windrowTurnDays = [3, 6, 9, 12, 15, 22, 29, 36, 43];

/** Farm windrow 12 m long, turned often at first and watered as it is turned. */
export const turnedWindrow: Scenario = {
  name: 'windrow 3 x 1.5 x 12 m, turned',
  parameters: pileParameters({
    shape: { kind: 'windrow', widthMetres: 3, heightMetres: 1.5, lengthMetres: 12 },
    material: { bulkDensityKgPerM3: 550, fastRatePerDay: 0.08, degradableFraction: 0.65, startCelsius: 14 },
  }),
  interventions: windrowTurnDays.flatMap((turnDay) => [
    { atSeconds: turnDay * day, kind: 'turn' as const },
    { atSeconds: turnDay * day, kind: 'water' as const, litres: 400, celsius: 12 },
  ]),
};

/**
 * A big, open, rich heap that dries from the inside: microbes that stand more heat and oxidation without microbes take
 * it past 80 C. The constants are chosen to get there, not measured (section 5.1: hand-over to chemistry near 80 C).
 */
export const runAwayHeap: Scenario = {
  name: 'large dry rich heap that runs away',
  parameters: pileParameters({
    shape: { kind: 'box', widthMetres: 4, lengthMetres: 6, heightMetres: 3 },
    material: {
      ...richFreshMaterial,
      moistureFraction: 0.42,
      bulkDensityKgPerM3: 520,
      fastRatePerDay: 0.06,
      slowRatePerDay: 0.03,
    },
    kinetics: {
      response: { kind: 'haug' },
      dieOffPerDayAt66Celsius: 0,
      chemicalRatePerDayAt80Celsius: 0.007,
    },
    air: { grainMetres: 0.0012, capContactFraction: 0.05 },
    surface: { wallResistance: 0, wetSurfaceFraction: 0.1 },
  }),
  interventions: [],
};

/** Built from dry leaves and never wetted: the microbes never get going. */
export const tooDryBin: Scenario = {
  name: 'bin built too dry',
  parameters: {
    ...gardenBin.parameters,
    material: { ...gardenBin.parameters.material, moistureFraction: 0.22, bulkDensityKgPerM3: 230 },
  },
  interventions: [],
};

/** A rich, open cage nobody waters: hot, then stalled for want of water with much of its food left. */
export const driedOutCage: Scenario = {
  name: 'cage that dries out and stalls',
  parameters: pileParameters({
    shape: cageShape,
    material: { ...richFreshMaterial, moistureFraction: 0.55, bulkDensityKgPerM3: 480 },
    surface: cageSurface,
    channels: {},
  }),
  interventions: [pullOnDayFive],
};

/** Packed sodden: no air gets in. */
export const soddenBin: Scenario = {
  name: 'bin packed sodden',
  parameters: {
    ...gardenBin.parameters,
    material: { ...gardenBin.parameters.material, moistureFraction: 0.78, bulkDensityKgPerM3: 900 },
    water: { ...gardenBin.parameters.water, heldKgPerKg: 4 },
  },
  interventions: [],
};

/** A bucketful: loses its warmth as fast as it makes it. In cold weather it never heats. */
export const smallHeap: Scenario = {
  name: 'small heap 0.1 m3',
  parameters: pileParameters({
    shape: { kind: 'box', widthMetres: 0.5, lengthMetres: 0.5, heightMetres: 0.4 },
    material: { startCelsius: 6 },
  }),
  interventions: [],
};

/** Every scenario, for tests and plots. */
export const scenarios: readonly Scenario[] = [
  gardenBin,
  ordinaryCage,
  freshRichCage,
  freshRichCageWithoutChannels,
  precompostedCage,
  turnedWindrow,
  runAwayHeap,
  tooDryBin,
  driedOutCage,
  soddenBin,
  smallHeap,
];
