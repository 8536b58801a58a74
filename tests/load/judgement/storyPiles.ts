import type { Intervention } from '../../../shared/compost/pileModel/interventions.ts';
import {
  type PileChoices,
  type PileParameters,
  pileParameters,
} from '../../../shared/compost/pileModel/parameters.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import type { Draw } from './draw.ts';
import type { Tending } from './storySpec.ts';

const daySeconds = 86_400;

/** A well-run pile of a method: the ground a story starts from. */
export interface StoryPile {
  readonly method: PileMethod;
  readonly choices: PileChoices;
  readonly interventions: readonly Intervention[];
  readonly tending: Tending;
  readonly days: readonly [number, number];
}

/**
 * Parameters are drawn here, from what the reference pack's section 4.3 and 7 call usual, and nowhere from the rules'
 * defaults. Each method has its own habits of building and looking after.
 */
export const wellRun: Readonly<Record<PileMethod, (draw: Draw) => StoryPile>> = {
  'static-cage': (draw) => ({
    method: 'static-cage',
    choices: {
      shape: {
        kind: 'cylinder',
        radiusMetres: draw.between(0.5, 0.7),
        heightMetres: draw.between(1, 1.5),
      },
      material: material(draw, {
        moistureFraction: draw.between(0.66, 0.7),
        bulkDensityKgPerM3: draw.between(430, 500),
        degradableFraction: draw.between(0.55, 0.68),
        fastShareFraction: draw.between(0.4, 0.55),
        slowRatePerDay: draw.between(0.008, 0.016),
        startCelsius: draw.between(16, 24),
        inoculumFraction: draw.between(0.25, 0.4),
      }),
      air: { grainMetres: draw.between(0.0012, 0.0017) },
      surface: { wallResistance: draw.between(0.12, 0.3), baseResistance: draw.between(0.5, 0.9) },
      water: { heldKgPerKg: draw.between(3, 3.6) },
      channels: {},
    },
    interventions: [{ atSeconds: draw.between(5, 12) * daySeconds, kind: 'pull-channels' }],
    tending: { waterBelowFraction: 0.65, lookEveryDays: 1, waterToFraction: 0.68 },
    days: [30, 60],
  }),
  'hot-bin': (draw) => ({
    method: 'hot-bin',
    choices: {
      shape: box(draw, [0.9, 1.3], [0.9, 1.3], [0.9, 1.2]),
      material: material(draw, {
        moistureFraction: draw.between(0.55, 0.62),
        bulkDensityKgPerM3: draw.between(400, 520),
        degradableFraction: draw.between(0.5, 0.66),
        fastShareFraction: draw.between(0.3, 0.5),
        slowRatePerDay: draw.between(0.01, 0.025),
      }),
      air: { grainMetres: draw.between(0.0012, 0.0017), opennessFraction: draw.between(0.5, 0.8) },
      surface: { wallResistance: draw.between(0.1, 0.3), wetSurfaceFraction: draw.between(0.02, 0.05) },
    },
    // Not before the record's three days without a break are done.
    interventions: turns(draw, [5, 7], 40, 8),
    tending: { waterBelowFraction: 0.53, lookEveryDays: 2, waterToFraction: 0.58 },
    days: [25, 45],
  }),
  'turned-windrow': (draw) => ({
    method: 'turned-windrow',
    choices: {
      shape: {
        kind: 'windrow',
        widthMetres: draw.between(2.5, 3.5),
        heightMetres: draw.between(1.2, 1.7),
        lengthMetres: draw.between(8, 20),
      },
      material: material(draw, {
        moistureFraction: draw.between(0.55, 0.62),
        bulkDensityKgPerM3: draw.between(450, 580),
        degradableFraction: draw.between(0.6, 0.72),
        fastShareFraction: draw.between(0.35, 0.55),
        fastRatePerDay: draw.between(0.06, 0.09),
        slowRatePerDay: draw.between(0.016, 0.026),
      }),
      air: { grainMetres: draw.between(0.0013, 0.0016) },
    },
    // Five turnings in the fifteen hot days the rules ask for, then fewer.
    interventions: [...turns(draw, [3, 3.6], 22, 4), ...turns(draw, [7, 9], 60, 26)],
    tending: { waterBelowFraction: 0.52, lookEveryDays: 3, waterToFraction: 0.58 },
    days: [40, 60],
  }),
  'aerated-static-pile': (draw) => ({
    method: 'aerated-static-pile',
    choices: {
      shape: box(draw, [2, 3], [4, 8], [1.6, 2.2]),
      material: material(draw, {
        moistureFraction: draw.between(0.57, 0.63),
        bulkDensityKgPerM3: draw.between(420, 520),
        degradableFraction: draw.between(0.55, 0.68),
        fastShareFraction: draw.between(0.4, 0.55),
        slowRatePerDay: draw.between(0.012, 0.022),
      }),
      air: { grainMetres: draw.between(0.0013, 0.0018), freshInletFraction: draw.between(0.6, 0.8) },
      surface: { wallResistance: draw.between(0.3, 0.8) },
    },
    interventions: [],
    tending: { waterBelowFraction: 0.52, lookEveryDays: 2, waterToFraction: 0.6 },
    days: [25, 40],
  }),
  'worm-bed': (draw) => ({
    method: 'worm-bed',
    choices: {
      shape: box(draw, [1, 1.5], [2, 4], [0.35, 0.5]),
      material: material(draw, {
        bulkDensityKgPerM3: draw.between(580, 680),
        moistureFraction: draw.between(0.74, 0.79),
        degradableFraction: draw.between(0.08, 0.16),
        fastShareFraction: draw.between(0.03, 0.08),
        slowRatePerDay: draw.between(0.003, 0.007),
        startCelsius: draw.between(16, 22),
      }),
      surface: { wallResistance: draw.between(0.6, 1.5), rainCatchFraction: 0.1 },
    },
    interventions: [],
    tending: { waterBelowFraction: 0.7, lookEveryDays: 2, waterToFraction: 0.75 },
    days: [30, 60],
  }),
  'curing-heap': (draw) => ({
    method: 'curing-heap',
    choices: {
      shape: {
        kind: 'windrow',
        widthMetres: draw.between(2, 2.6),
        heightMetres: draw.between(1, 1.4),
        lengthMetres: draw.between(4, 10),
      },
      material: material(draw, {
        bulkDensityKgPerM3: draw.between(550, 640),
        moistureFraction: draw.between(0.5, 0.57),
        degradableFraction: draw.between(0.1, 0.2),
        fastShareFraction: draw.between(0.02, 0.06),
        slowRatePerDay: draw.between(0.004, 0.009),
        startCelsius: draw.between(22, 34),
      }),
    },
    interventions: [],
    tending: { waterBelowFraction: 0.46, lookEveryDays: 4, waterToFraction: 0.52 },
    days: [30, 60],
  }),
  'leaf-heap': (draw) => ({
    method: 'leaf-heap',
    choices: {
      shape: {
        kind: 'windrow',
        widthMetres: draw.between(1.6, 2.4),
        heightMetres: draw.between(1, 1.5),
        lengthMetres: draw.between(3, 8),
      },
      material: material(draw, {
        bulkDensityKgPerM3: draw.between(230, 320),
        moistureFraction: draw.between(0.55, 0.63),
        degradableFraction: draw.between(0.28, 0.4),
        fastShareFraction: draw.between(0.05, 0.12),
        slowRatePerDay: draw.between(0.003, 0.008),
      }),
    },
    interventions: [],
    tending: { waterBelowFraction: 0.52, lookEveryDays: 4, waterToFraction: 0.58 },
    days: [30, 60],
  }),
};

/** Parameters of the pile model from a story's choices. */
export const parametersOf = (pile: StoryPile): PileParameters => pileParameters(pile.choices);

/** The same pile with other material, air or surface. */
export function changed(
  pile: StoryPile,
  change: Partial<PileChoices>,
  more: Partial<StoryPile> = {},
): StoryPile {
  const merge = <K extends 'material' | 'air' | 'surface' | 'kinetics' | 'water'>(key: K) => ({
    [key]: { ...pile.choices[key], ...change[key] },
  });
  const groups = {
    ...merge('material'),
    ...merge('air'),
    ...merge('surface'),
    ...merge('kinetics'),
    ...merge('water'),
  };
  return { ...pile, choices: { ...pile.choices, ...change, ...groups }, ...more };
}

function material(
  draw: Draw,
  given: NonNullable<PileChoices['material']>,
): NonNullable<PileChoices['material']> {
  return {
    ashFraction: draw.between(0.1, 0.25),
    fastRatePerDay: draw.between(0.07, 0.14),
    inoculumFraction: draw.between(0.12, 0.35),
    startCelsius: draw.between(10, 20),
    ...given,
  };
}

function box(
  draw: Draw,
  width: readonly [number, number],
  length: readonly [number, number],
  height: readonly [number, number],
) {
  return {
    kind: 'box',
    widthMetres: draw.between(...width),
    lengthMetres: draw.between(...length),
    heightMetres: draw.between(...height),
  } as const;
}

/** A turning every so many days from `first` on, by the hour. */
function turns(draw: Draw, every: readonly [number, number], days: number, first: number): Intervention[] {
  const gap = draw.between(...every);
  return Array.from({ length: Math.floor((days - first) / gap) + 1 }, (_, index) => ({
    atSeconds: Math.round((first + index * gap) * 24) * 3600,
    kind: 'turn' as const,
  }));
}
