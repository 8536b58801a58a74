import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayOutcome } from './say.ts';
import { sources } from './sources.ts';

export const smells = ['none', 'earthy', 'sour', 'ammonia', 'burnt'] as const;
export type Smell = (typeof smells)[number];

/** What it smells of. Burnt stands for smoke, caramel or tobacco. */
export const smell: ObservationKind = {
  id: 'smell',
  matter: 'smell',
  troubles: [...coldTroubles, ...hotTroubles, 'too-wet'],
  outcomes: smells,
  anchors: null,
  otherwise: row([42, 30, 16, 9, 3], 'smell tells little', sources.practice),
  rows: {
    airless: row([10, 4, 72, 12, 2], 'an airless pile smells sour or rotten', sources.practice),
    packed: row([24, 12, 50, 12, 2], 'a packed pile smells sour inside', sources.practice),
    spent: row([26, 70, 2, 1, 1], 'a spent pile smells of soil', sources.practice),
    'too-dry': row([66, 22, 4, 5, 3], 'a dry pile hardly smells', sources.practice),
    'nitrogen-excess': row(
      [5, 2, 13, 79, 1],
      'too much nitrogen smells of ammonia',
      sources.carbonToNitrogen,
    ),
    'nitrogen-short': row([60, 33, 4, 1, 2], 'a lean pile never smells of ammonia', sources.carbonToNitrogen),
    overheated: row([40, 18, 14, 12, 16], 'a cooked pile can smell burnt', sources.cooked),
    'rich-mix': row([15, 7, 20, 56, 2], 'a rich mix smells of ammonia', sources.carbonToNitrogen),
    'too-dry-to-cool': row([50, 18, 6, 10, 16], 'a dry hot pile can smell scorched', sources.smoulder),
    smouldering: row([6, 3, 5, 6, 80], 'smouldering smells burnt', sources.smoulder),
    'wet-mix': row([20, 10, 58, 11, 1], 'a mix wet from the start sours', sources.practice),
  },
  say: sayOutcome({
    none: 'it has no smell',
    earthy: 'it smells of soil',
    sour: 'it smells sour or rotten',
    ammonia: 'it smells of ammonia',
    burnt: 'it smells burnt',
  }),
};

export const looks = ['dry and white', 'wet and slimy', 'dark and crumbly', 'moist and unchanged'] as const;
export type Look = (typeof looks)[number];

/** What a handful from arm's length inside looks like. */
export const look: ObservationKind = {
  id: 'look',
  matter: 'look',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: looks,
  anchors: null,
  otherwise: row([12, 13, 25, 50], 'it looks ordinary inside', sources.practice),
  rows: {
    'too-dry': row([72, 2, 8, 18], 'dry inside, grey-white threads', sources.practice),
    'too-dry-to-cool': row([70, 4, 10, 16], 'dry inside, grey-white threads', sources.practice),
    airless: row([2, 74, 8, 16], 'wet, dark and slimy inside', sources.practice),
    packed: row([8, 40, 12, 40], 'matted or pressed layers inside', sources.practice),
    spent: row([10, 6, 74, 10], 'a spent pile is dark and crumbly', sources.practice),
    'nitrogen-short': row([14, 6, 8, 72], 'a lean pile looks unchanged', sources.practice),
    overheated: row([45, 8, 22, 25], 'a cooked core is dry and pale', sources.cooked),
  },
  say: (seen) => `inside it is ${String(seen)}`,
};
