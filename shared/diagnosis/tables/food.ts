import type { PileMethod } from '../../yard/method.ts';
import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayNumber, sayPercent } from './say.ts';
import { sources } from './sources.ts';

/** Days of heat and heat above 40 C one expects of each method, in C day: after the courses of reference 7.1, judgement. */
export const expectedHeat: Readonly<Record<PileMethod, { readonly days: number; readonly above40: number }>> =
  {
    'static-cage': { days: 8, above40: 100 },
    'hot-bin': { days: 20, above40: 160 },
    'turned-windrow': { days: 45, above40: 600 },
    'aerated-static-pile': { days: 21, above40: 350 },
    'worm-bed': { days: 5, above40: 20 },
    'curing-heap': { days: 15, above40: 60 },
    'leaf-heap': { days: 30, above40: 80 },
  };

/** Degradable material left, as a share of what it began with. */
export const degradableLeft: ObservationKind = {
  id: 'degradableLeft',
  matter: 'food',
  troubles: coldTroubles,
  outcomes: ['hardly any', 'little', 'some', 'half', 'most'],
  anchors: () => [0.05, 0.15, 0.3, 0.5, 0.75],
  otherwise: row([4, 8, 18, 32, 38], 'a pile held back still has food left', sources.learnt),
  rows: { spent: row([38, 34, 18, 7, 3], 'a spent pile has little left', sources.learnt) },
  say: sayPercent('food left is'),
};

/** Heat above 40 C so far, as a share of what its method is expected to give. */
export const heatShare: ObservationKind = {
  id: 'heatShare',
  matter: 'food',
  // A pile that never heated has given no heat by definition.
  troubles: ['stalled', 'fell-short'],
  outcomes: ['hardly any', 'a third', 'most', 'all', 'far more'],
  anchors: () => [0.05, 0.3, 0.8, 1.5, 3],
  otherwise: row([24, 28, 24, 15, 9], 'a pile held back has given less than usual', sources.course),
  rows: {
    spent: row([3, 8, 22, 35, 32], 'a spent pile has given its heat', sources.course),
    overheated: row([3, 20, 35, 26, 16], 'a pile that cooked itself had strong heat', sources.cooked),
  },
  say: sayPercent('heat so far, of what is usual, is'),
};

/** Days since building; the outcomes stand for shares of the hot time usual for the method. */
export const age: ObservationKind = {
  id: 'ageDays',
  matter: 'food',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['very young', 'young', 'half-way', 'due', 'old', 'very old'],
  anchors: (method) => [0.1, 0.3, 0.7, 1.5, 3, 8].map((share) => share * expectedHeat[method].days),
  otherwise: row([10, 22, 26, 22, 13, 7], 'it can happen at any age', sources.practice),
  rows: {
    spent: row([1.5, 5, 13, 27, 29, 24.5], 'food runs out late', sources.course),
    'rich-mix': row([20, 34, 27, 13, 4, 2], 'a rich mix is hottest when young', sources.course),
    'too-dry-to-cool': row([3, 9, 22, 31, 22, 13], 'it takes time to dry out', sources.bigPiles),
    smouldering: row([1, 4, 10, 22, 32, 31], 'old neglected piles smoulder', sources.bigPiles),
  },
  say: sayNumber('age is', ' days'),
};

/** C:N ratio of the mix when it was built. */
export const carbonToNitrogen: ObservationKind = {
  id: 'carbonToNitrogen',
  matter: 'mix',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['very rich', 'rich', 'right', 'lean', 'very lean', 'woody'],
  anchors: () => [12, 20, 28, 40, 60, 100],
  otherwise: row([6, 20, 36, 24, 10, 4], 'most mixes are at 20 to 40', sources.carbonToNitrogen),
  rows: {
    'nitrogen-short': row(
      [0.5, 1.5, 7, 22, 36, 33],
      'nitrogen runs short above about 40',
      sources.carbonToNitrogen,
    ),
    'nitrogen-excess': row(
      [46, 37, 12, 3, 1.4, 0.6],
      'ammonia builds up below about 20',
      sources.carbonToNitrogen,
    ),
    'rich-mix': row([32, 42, 20, 4.5, 1.1, 0.4], 'rich mixes are below about 25', sources.carbonToNitrogen),
    airless: row([12, 26, 33, 19, 7, 3], 'rich green mixes mat and close up', sources.practice),
  },
  say: sayNumber('carbon to nitrogen of the mix was', ':1'),
};

/** Share of the mix's volume that was air when it was built. */
export const freeAirSpace: ObservationKind = {
  id: 'freeAirSpaceFraction',
  matter: 'mix',
  troubles: [...coldTroubles, 'too-wet', 'drying-out'],
  outcomes: ['closed', 'tight', 'fair', 'open', 'very open'],
  anchors: () => [0.15, 0.25, 0.35, 0.5, 0.65],
  otherwise: row([3, 12, 30, 37, 18], 'most mixes have 30 % or more', sources.airSpace),
  rows: {
    packed: row([30, 38, 21, 8, 3], 'packed means under about 30 %', sources.airSpace),
    airless: row([24, 32, 26, 13, 5], 'little air space closes when wet', sources.airSpace),
    'cold-loss': row([1, 7, 24, 40, 28], 'an open pile loses its heat with the draught', sources.practice),
    'own-heat': row([1, 6, 22, 41, 30], 'a strong draught needs an open pile', sources.evaporation),
  },
  say: sayPercent('free air space of the mix was'),
};
