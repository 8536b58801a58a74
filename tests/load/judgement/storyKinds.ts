import type { Intervention } from '../../../shared/compost/pileModel/interventions.ts';
import { richFreshMaterial } from '../../../shared/compost/pileModel/scenarios.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import type { Draw } from './draw.ts';
import { changed, type StoryPile, wellRun } from './storyPiles.ts';
import type { InjectedCause, Tending } from './storySpec.ts';
import type { Season } from './storyWeather.ts';

const daySeconds = 86_400;
const neglected: Tending = { waterBelowFraction: null, lookEveryDays: 7, waterToFraction: 0.6 };

/** A kind of story: how often it is told, and the pile it is told of. */
export interface StoryKind {
  readonly name: string;
  readonly weight: number;
  readonly cause: InjectedCause | null;
  readonly season?: Season;
  /** Nobody measures its moisture: drying can only be reckoned. */
  readonly isMoistureUnknown?: true;
  readonly pile: (draw: Draw) => StoryPile;
}

const heating: readonly PileMethod[] = ['static-cage', 'hot-bin', 'turned-windrow', 'aerated-static-pile'];
const anyHeating = (draw: Draw): StoryPile => wellRun[draw.oneOf(heating)](draw);
const dead = { dieOffPerDayAt66Celsius: 0 } as const;

const healthy: readonly StoryKind[] = (
  [
    ['static-cage', 12],
    ['hot-bin', 10],
    ['turned-windrow', 10],
    ['aerated-static-pile', 6],
    ['worm-bed', 6],
    ['curing-heap', 6],
    ['leaf-heap', 6],
  ] as const
).map(([method, weight]) => ({ name: `well-run ${method}`, weight, cause: null, pile: wellRun[method] }));

/** The rich heap of the pile model, its numbers drawn: microbes that stand more heat, and chemistry at 80 C. */
function runAway(draw: Draw): StoryPile {
  const pile = wellRun[draw.oneOf(['turned-windrow', 'aerated-static-pile'] as const)](draw);
  const shape = {
    kind: 'box',
    widthMetres: draw.between(3, 5),
    lengthMetres: draw.between(5, 8),
    heightMetres: draw.between(2.4, 3.2),
  } as const;
  return changed(
    pile,
    {
      shape,
      material: {
        ...richFreshMaterial,
        moistureFraction: draw.between(0.4, 0.46),
        bulkDensityKgPerM3: draw.between(480, 540),
        fastRatePerDay: draw.between(0.05, 0.07),
        slowRatePerDay: draw.between(0.025, 0.035),
      },
      kinetics: {
        response: { kind: 'haug' },
        ...dead,
        chemicalRatePerDayAt80Celsius: draw.between(0.004, 0.009),
      },
      air: { grainMetres: draw.between(0.0011, 0.0013), capContactFraction: 0.05, freshInletFraction: 0.4 },
      surface: { wallResistance: 0, wetSurfaceFraction: 0.1 },
    },
    { tending: neglected, interventions: [], days: [25, 45] },
  );
}

/** Rich and fresh, with microbes that stand more heat than most: past the ceiling, no chemistry. */
function overheats(draw: Draw): StoryPile {
  const pile = wellRun[draw.oneOf(['static-cage', 'hot-bin', 'turned-windrow'] as const)](draw);
  return changed(pile, {
    material: {
      ...richFreshMaterial,
      fastRatePerDay: draw.between(0.09, 0.14),
      moistureFraction: draw.between(0.54, 0.6),
      bulkDensityKgPerM3: draw.between(420, 500),
      startCelsius: draw.between(16, 24),
    },
    kinetics: { response: { kind: 'haug' }, ...dead },
  });
}

function staysHot(draw: Draw): StoryPile {
  const material = { ...richFreshMaterial, moistureFraction: draw.between(0.64, 0.69) };
  return changed(wellRun['static-cage'](draw), { material }, { days: [40, 60] });
}

function builtDry(draw: Draw): StoryPile {
  const material = { moistureFraction: draw.between(0.16, 0.26), bulkDensityKgPerM3: draw.between(200, 270) };
  return changed(anyHeating(draw), { material }, { tending: neglected, interventions: [], days: [14, 25] });
}

function packedWet(draw: Draw): StoryPile {
  return changed(
    anyHeating(draw),
    {
      material: { moistureFraction: draw.between(0.77, 0.8), bulkDensityKgPerM3: draw.between(870, 950) },
      water: { heldKgPerKg: 4.2 },
    },
    { tending: neglected, interventions: [], days: [14, 25] },
  );
}

function tooSmall(draw: Draw): StoryPile {
  const side = draw.between(0.35, 0.5);
  return changed(
    wellRun['hot-bin'](draw),
    {
      shape: { kind: 'box', widthMetres: side, lengthMetres: side, heightMetres: draw.between(0.3, 0.45) },
      material: { startCelsius: draw.between(2, 8), inoculumFraction: 0.1 },
      surface: { wallResistance: 0.02 },
    },
    { interventions: [], days: [14, 25] },
  );
}

function poorMix(draw: Draw): StoryPile {
  const material = {
    degradableFraction: draw.between(0.08, 0.14),
    fastShareFraction: draw.between(0.02, 0.06),
    slowRatePerDay: draw.between(0.002, 0.004),
  };
  return changed(anyHeating(draw), { material }, { days: [14, 25] });
}

/** Hot at first, and nobody waters: it dries and stops with most of its food left. */
function driesOut(draw: Draw): StoryPile {
  return changed(
    wellRun[draw.oneOf(['static-cage', 'hot-bin'] as const)](draw),
    {
      material: {
        ...richFreshMaterial,
        moistureFraction: draw.between(0.5, 0.58),
        bulkDensityKgPerM3: draw.between(430, 500),
      },
      air: { grainMetres: draw.between(0.0016, 0.0021), opennessFraction: 1 },
      surface: { rainCatchFraction: 0 },
    },
    { tending: neglected, interventions: [], days: [25, 40] },
  );
}

/** Built as it should be, then left alone through a dry summer: its own heat takes the water. */
function leftToDry(draw: Draw): StoryPile {
  const pile = anyHeating(draw);
  const air = { opennessFraction: draw.between(0.8, 1), grainMetres: draw.between(0.0014, 0.0019) };
  const change = { air, surface: { rainCatchFraction: 0, wallResistance: draw.between(0.05, 0.15) } };
  return changed(pile, change, { tending: neglected, days: [30, 50] });
}

/** Cloudbursts or a burst pipe: the pores fill, the air goes, the heat goes. */
function drowned(draw: Draw): StoryPile {
  const from = draw.between(4, 6);
  const flood: Intervention[] = [0, 0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8].map((days) => ({
    atSeconds: (from + days) * daySeconds,
    kind: 'water',
    litres: 420,
    celsius: 10,
  }));
  return changed(
    wellRun[draw.oneOf(['static-cage', 'hot-bin'] as const)](draw),
    {
      material: { ...richFreshMaterial, moistureFraction: draw.between(0.66, 0.7), bulkDensityKgPerM3: 720 },
      water: { heldKgPerKg: 5 },
    },
    { interventions: flood, tending: neglected, days: [20, 30] },
  );
}

/** A smallish, open pile under a long frost: it loses more than it makes. */
function frozenOut(draw: Draw): StoryPile {
  const side = draw.between(0.75, 0.95);
  return changed(
    wellRun['hot-bin'](draw),
    {
      shape: { kind: 'box', widthMetres: side, lengthMetres: side, heightMetres: side },
      material: {
        degradableFraction: 0.7,
        fastShareFraction: 0.55,
        slowRatePerDay: 0.02,
        startCelsius: 28,
        inoculumFraction: 0.6,
      },
      surface: { wallResistance: 0.05 },
      air: { opennessFraction: 1 },
    },
    { interventions: [], days: [20, 35] },
  );
}

/** Works, and is done: quick food mostly gone when it cools. Nothing is wrong. */
function finishes(draw: Draw): StoryPile {
  const material = {
    fastShareFraction: draw.between(0.75, 0.9),
    fastRatePerDay: draw.between(0.18, 0.28),
    slowRatePerDay: draw.between(0.01, 0.02),
  };
  return changed(anyHeating(draw), { material }, { days: [35, 60] });
}

function overfedWorms(draw: Draw): StoryPile {
  const feed = {
    ...richFreshMaterial,
    ashFraction: 0.1,
    inoculumFraction: 0.3,
    startCelsius: 15,
    moistureFraction: 0.7,
  };
  const add: Intervention = {
    atSeconds: draw.between(8, 15) * daySeconds,
    kind: 'add',
    wetKg: draw.between(250, 450),
    material: feed as never,
  };
  const pile = wellRun['worm-bed'](draw);
  return { ...pile, interventions: [add], days: [25, 40] };
}

const coldWorms = (draw: Draw): StoryPile =>
  changed(wellRun['worm-bed'](draw), { surface: { wallResistance: 0.05 } }, { days: [25, 40] });

const dryCuring = (draw: Draw): StoryPile =>
  changed(
    wellRun['curing-heap'](draw),
    {
      material: { moistureFraction: draw.between(0.42, 0.45), startCelsius: 40 },
      surface: { rainCatchFraction: 0 },
    },
    { tending: neglected },
  );

export const storyKinds: readonly StoryKind[] = [
  ...healthy,
  { name: 'runs away', weight: 6, cause: 'dry-and-hot', pile: runAway },
  { name: 'overheats', weight: 8, cause: 'too-rich', season: 'summer', pile: overheats },
  { name: 'stays hot too long', weight: 6, cause: 'too-rich', pile: staysHot },
  { name: 'built too dry', weight: 7, cause: 'too-dry', pile: builtDry },
  { name: 'packed sodden', weight: 7, cause: 'airless-wet', pile: packedWet },
  { name: 'too small and cold', weight: 6, cause: 'cold-loss', season: 'winter', pile: tooSmall },
  { name: 'poor mix', weight: 6, cause: 'little-food', pile: poorMix },
  { name: 'dries out', weight: 9, cause: 'too-dry', pile: driesOut },
  {
    ...{ name: 'left to dry', weight: 9, cause: 'too-dry', season: 'summer', pile: leftToDry },
    isMoistureUnknown: true,
  },
  {
    ...{ name: 'dries out unseen', weight: 4, cause: 'too-dry', season: 'summer', pile: driesOut },
    isMoistureUnknown: true,
  },
  { name: 'drowned', weight: 7, cause: 'airless-wet', pile: drowned },
  { name: 'frozen out', weight: 7, cause: 'cold-loss', season: 'winter', pile: frozenOut },
  { name: 'finishes', weight: 7, cause: 'finished', pile: finishes },
  { name: 'overfed worms', weight: 5, cause: 'too-rich', pile: overfedWorms },
  { name: 'cold worms', weight: 4, cause: 'cold-loss', season: 'winter', pile: coldWorms },
  { name: 'curing heap dries', weight: 4, cause: 'too-dry', season: 'summer', pile: dryCuring },
  { name: 'cage in a heat wave', weight: 4, cause: null, season: 'summer', pile: wellRun['static-cage'] },
  { name: 'windrow in winter', weight: 4, cause: null, season: 'winter', pile: wellRun['turned-windrow'] },
];
