import type { PileMethod } from '../../yard/method.ts';
import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles, waterTroubles } from '../trouble.ts';
import { row, softened } from './row.ts';
import { sayNumber, sayOutcome, sayPercent } from './say.ts';
import { sources } from './sources.ts';

const outcomes = ['parched', 'dry', 'low', 'right', 'wet', 'sodden'] as const;

/** Methods whose piles stand wet on purpose. */
export const keptWet: readonly PileMethod[] = ['static-cage', 'worm-bed', 'leaf-heap'];

/** Wet-basis fraction each outcome stands for. Piles kept wet on purpose stand on about 70 % (reference, section 6). */
export function moistureAnchors(method: PileMethod): readonly number[] {
  return keptWet.includes(method)
    ? [0.25, 0.37, 0.5, 0.65, 0.75, 0.83]
    : [0.22, 0.34, 0.43, 0.54, 0.64, 0.75];
}

const otherwise = row(
  [2, 6, 17, 45, 24, 6],
  'a pile held back by something else is usually moist',
  sources.practice,
);

// From dry to wet the chance of "too dry" falls against every other row: more moisture never makes it likelier.
const rows = {
  'too-dry': row([34, 42, 18, 4.5, 1.2, 0.3], 'work slows sharply below 35 to 40 %', sources.rightMix),
  'too-dry-to-cool': row(
    [20, 35, 28, 13.3, 3, 0.7],
    'runaway heat is likeliest at 20 to 45 %',
    sources.dryDanger,
  ),
  airless: row([0.2, 0.8, 3, 16, 40, 40], 'water fills the pores above about 60 %', sources.tooWet),
  packed: row([1, 4, 12, 38, 33, 12], 'packed piles are moist or wet', sources.practice),
} as const;

/** A moisture probe's reading. */
export const moistureReading: ObservationKind = {
  id: 'moistureFraction',
  matter: 'moisture',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes,
  anchors: moistureAnchors,
  rows,
  otherwise,
  say: sayPercent('moisture is'),
};

/** Moisture worked out from heat and air when nobody measured it: half as telling. */
export const moistureEstimate: ObservationKind = {
  ...moistureReading,
  id: 'estimatedMoistureFraction',
  rows: Object.fromEntries(
    Object.entries(rows).map(([cause, sharp]) => [cause, softened(sharp, otherwise, sources.learnt)]),
  ),
  say: sayPercent('moisture is estimated at'),
};

/** Moisture of the mix on the day it was built. */
export const builtMoisture: ObservationKind = {
  id: 'builtMoistureFraction',
  matter: 'moisture',
  troubles: [...coldTroubles, ...waterTroubles],
  outcomes,
  anchors: moistureAnchors,
  otherwise: row([3, 9, 20, 44, 19, 5], 'most mixes are built moist', sources.practice),
  rows: {
    'too-dry': row([18, 28, 27, 22, 4.2, 0.8], 'a pile that starts dry stays dry', sources.rightMix),
    airless: row([0.6, 2.4, 9, 30, 34, 24], 'a mix built wet turns airless', sources.tooWet),
    'built-dry': row([30, 40, 20, 7, 2.4, 0.6], 'it was short of water from the start', sources.rightMix),
    'wet-mix': row([0.3, 0.7, 4, 17, 42, 36], 'it was too wet from the start', sources.tooWet),
  },
  say: sayPercent('moisture when built was'),
};

const squeezeWords = ['dust', 'crumbles', 'a few drops', 'a stream', 'drips by itself'] as const;

/** Squeeze test: 1 dust, 2 crumbles, 3 a few drops, 4 a stream, 5 drips by itself. */
export const squeezeTest: ObservationKind = {
  id: 'squeezeScore',
  matter: 'moisture',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: squeezeWords,
  anchors: () => [1, 2, 3, 4, 5],
  otherwise: row([3, 17, 55, 20, 5], 'a pile held back by something else gives a few drops', sources.squeeze),
  rows: {
    'too-dry': row([45, 43, 10, 1.6, 0.4], 'a dry pile crumbles or is dust', sources.squeeze),
    'too-dry-to-cool': row([30, 42, 23, 4, 1], 'a dry pile crumbles or is dust', sources.squeeze),
    airless: row([0.3, 1.7, 14, 38, 46], 'a sodden pile streams or drips', sources.squeeze),
    packed: row([1, 8, 46, 33, 12], 'a packed pile gives drops or a stream', sources.squeeze),
  },
  say: sayNumber('squeeze test is', ' of 5 (1 dust, 3 a few drops, 5 drips)'),
};

/** Whether a squeeze test bears out the moisture probe whose reading is in question. */
export const squeezeAgainstProbe: ObservationKind = {
  id: 'squeezeAgainstProbe',
  matter: 'probe',
  troubles: waterTroubles,
  outcomes: ['agrees', 'disagrees'],
  anchors: null,
  otherwise: row([90, 10], 'hand and moisture probe agree', sources.probe),
  rows: { 'probe-wrong': row([25, 75], 'the hand feels something else than the probe says', sources.probe) },
  say: sayOutcome({
    agrees: 'the squeeze test agrees with the moisture probe',
    disagrees: 'the squeeze test contradicts the moisture probe',
  }),
};
