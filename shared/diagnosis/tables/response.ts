import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayNumber, sayOutcome } from './say.ts';
import { sources } from './sources.ts';

/** What the core did in the days after work on the pile. */
export const responses = ['reheated', 'rose a little', 'no change'] as const;
export type Response = (typeof responses)[number];

const after = (work: string) =>
  sayOutcome({
    reheated: `it reheated after it was ${work}`,
    'rose a little': `it rose only a little after it was ${work}`,
    'no change': `it did not reheat after it was ${work}`,
  });

/** A turn or an opening lets air in, so a pile short of air reheats. */
export const afterTurn: ObservationKind = {
  id: 'afterTurn',
  matter: 'turn',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: responses,
  anchors: null,
  otherwise: row([30, 30, 40], 'a turn may or may not help', sources.practice),
  rows: {
    airless: row([55, 25, 20], 'a turn lets air in', sources.reheat),
    packed: row([70, 20, 10], 'a turn loosens it and it reheats', sources.reheat),
    overheated: row([65, 22, 13], 'a turn brings live microbes in from the outside', sources.cooked),
    'too-dry': row([10, 25, 65], 'a turn brings no water', sources.rewet),
    spent: row([3, 12, 85], 'a spent pile does not reheat', sources.reheat),
    'nitrogen-short': row([10, 30, 60], 'a turn brings no nitrogen', sources.practice),
    'cold-loss': row([15, 35, 50], 'a turn cools a pile that cannot hold heat', sources.turnDip),
    'rich-mix': row([75, 17, 8], 'a rich mix is soon hot again', sources.reheat),
  },
  say: after('turned or opened'),
};

/** Watering without a turn: a pile short of water wakes up. */
export const afterWater: ObservationKind = {
  id: 'afterWater',
  matter: 'water',
  troubles: coldTroubles,
  outcomes: responses,
  anchors: null,
  otherwise: row([14, 26, 60], 'water alone seldom helps otherwise', sources.practice),
  rows: {
    'too-dry': row([68, 20, 12], 'a dry pile wakes up when wet', sources.rewet),
    overheated: row([30, 32, 38], 'a cooked pile is often dry as well', sources.cooked),
    airless: row([2, 8, 90], 'more water makes it worse', sources.tooWet),
    spent: row([4, 12, 84], 'a spent pile does not wake up', sources.rewet),
  },
  say: after('watered'),
};

/** Turned and watered within the same day, so that the two cannot be told apart. */
export const afterBoth: ObservationKind = {
  id: 'afterBoth',
  matter: 'turn',
  troubles: coldTroubles,
  outcomes: responses,
  anchors: null,
  otherwise: row([30, 28, 42], 'it may or may not help', sources.practice),
  rows: {
    'too-dry': row([68, 20, 12], 'a dry pile wakes up when wet', sources.rewet),
    packed: row([58, 26, 16], 'a turn loosens it', sources.reheat),
    overheated: row([70, 20, 10], 'a turn brings live microbes in', sources.cooked),
    spent: row([3, 12, 85], 'a spent pile does not reheat', sources.reheat),
    'nitrogen-short': row([12, 28, 60], 'neither brings nitrogen', sources.practice),
    'cold-loss': row([15, 35, 50], 'both cool it', sources.turnDip),
  },
  say: after('turned and watered'),
};

/** Hours since the last turn, opening, watering, adding or move. */
export const hoursSinceWork: ObservationKind = {
  id: 'hoursSinceWork',
  matter: 'recovery',
  troubles: ['stalled', 'fell-short'],
  outcomes: ['just now', 'today', 'yesterday', 'days ago', 'long ago'],
  anchors: () => [3, 12, 30, 60, 120],
  otherwise: row([3, 6, 14, 22, 55], 'work on it was longer ago', sources.practice),
  rows: { recovering: row([26, 36, 28, 8, 2], 'a pile recovers within two days', sources.turnDip) },
  say: sayNumber('the last work on it was', ' hours ago'),
};

/** Days since a turned pile was turned. */
export const daysSinceTurned: ObservationKind = {
  id: 'daysSinceTurned',
  matter: 'settling',
  troubles: coldTroubles,
  outcomes: ['just turned', 'this week', 'last week', 'weeks ago', 'over a month ago'],
  anchors: () => [2, 5, 10, 20, 40],
  otherwise: row([22, 26, 24, 16, 12], 'it was turned lately', sources.practice),
  rows: {
    packed: row([6, 14, 26, 29, 25], 'a pile packs down unturned', sources.resistance),
    airless: row([10, 18, 26, 25, 21], 'pores close as it settles', sources.resistance),
  },
  say: sayNumber('it was last turned', ' days ago'),
};
