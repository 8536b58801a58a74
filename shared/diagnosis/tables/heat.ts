import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayCelsius, sayDifference } from './say.ts';
import { sources } from './sources.ts';

/** Core above air now. */
export const riseOverAir: ObservationKind = {
  id: 'riseOverAirCelsius',
  matter: 'warmth',
  troubles: coldTroubles,
  outcomes: ['none', 'trace', 'some', 'clear', 'strong'],
  anchors: () => [0, 4, 10, 20, 35],
  otherwise: row([14, 24, 28, 22, 12], 'a pile held back is usually still a little warm', sources.practice),
  rows: {
    'cold-loss': row([8, 22, 38, 25, 7], 'it makes heat but cannot keep it', sources.size),
    spent: row([34, 36, 20, 8, 2], 'a spent pile is near the air', sources.reheat),
    'probe-wrong': row([48, 27, 14, 8, 3], 'a probe outside the core reads near the air', sources.probe),
    'too-dry': row([22, 30, 27, 15, 6], 'a dry pile makes next to no heat', sources.rightMix),
    recovering: row([4, 10, 22, 32, 32], 'a working pile stays warm through a turn', sources.turnDip),
  },
  say: sayDifference('core is', ' warmer than the air'),
};

/** Robust slope over the last hours. */
export const trend: ObservationKind = {
  id: 'trendCelsiusPerHour',
  matter: 'recovery',
  troubles: ['stalled', 'fell-short'],
  outcomes: ['falling fast', 'falling', 'flat', 'rising', 'rising fast'],
  anchors: () => [-1, -0.3, 0, 0.3, 1],
  otherwise: row([10, 24, 46, 15, 5], 'it is flat or falling', sources.practice),
  rows: { recovering: row([4, 8, 18, 38, 32], 'it is on its way up again', sources.turnDip) },
  say: sayDifference('core trend is', ' an hour'),
};

/** Steepest fall of the core in one hour of the last days. */
export const steepestFall: ObservationKind = {
  id: 'steepestFallCelsiusPerHour',
  matter: 'fall',
  troubles: coldTroubles,
  outcomes: ['very slow', 'slow', 'steady', 'fast', 'sudden'],
  anchors: () => [0.05, 0.3, 1, 3, 10],
  otherwise: row([28, 38, 22, 9, 3], 'a pile cools over days', sources.slowPile),
  rows: {
    'probe-wrong': row([14, 16, 16, 24, 30], 'only a moved probe falls within an hour', sources.slowPile),
    spent: row([42, 40, 13, 4, 1], 'a spent pile fades slowly', sources.slowPile),
  },
  say: sayDifference('its steepest fall was', ' in an hour'),
};

/** Core minus edge. */
export const coreMinusEdge: ObservationKind = {
  id: 'coreMinusEdgeCelsius',
  matter: 'shape',
  troubles: coldTroubles,
  outcomes: ['edge hotter', 'alike', 'core warmer', 'core much warmer', 'core hot, edge cold'],
  anchors: () => [-10, 0, 8, 20, 35],
  otherwise: row([3, 24, 36, 27, 10], 'the core is somewhat warmer than the edge', sources.size),
  rows: {
    airless: row([18, 38, 28, 12, 4], 'only the outside gets air and works', sources.airWithin),
    packed: row([13, 33, 31, 17, 6], 'only the outside gets air and works', sources.airWithin),
    'probe-wrong': row([30, 35, 20, 10, 5], 'the probe is not in the hottest part', sources.probe),
    'cold-loss': row([1, 10, 27, 36, 26], 'warm core, cold shell', sources.size),
    spent: row([4, 52, 32, 10, 2], 'a spent pile is alike all through', sources.reheat),
  },
  say: sayDifference('core minus edge is'),
};

/** Highest core so far. */
export const peak: ObservationKind = {
  id: 'peakCelsius',
  matter: 'peak',
  // A pile that never heated has a low peak by definition.
  troubles: ['stalled', 'fell-short'],
  outcomes: ['cool', 'warm', 'hot', 'very hot', 'at the ceiling', 'above it'],
  anchors: () => [30, 45, 58, 66, 71, 76],
  otherwise: row([14, 22, 32, 20, 8, 4], 'most piles peak below the ceiling', sources.course),
  rows: {
    overheated: row(
      [0.2, 0.8, 5, 20, 39, 35],
      'cooking means it was near or above the ceiling',
      sources.cooked,
    ),
    'nitrogen-short': row([26, 36, 26, 9, 2, 1], 'a lean mix never gets very hot', sources.carbonToNitrogen),
    'cold-loss': row([22, 34, 29, 11, 3, 1], 'a pile that loses heat never gets very hot', sources.size),
  },
  say: sayCelsius('its highest core was'),
};

/** Hottest core of the last day, for a pile that is too hot. */
export const hottest: ObservationKind = {
  id: 'hottestCelsius',
  matter: 'peak',
  troubles: hotTroubles,
  outcomes: ['high-normal', 'too hot', 'at the ceiling', 'beyond biology', 'fire danger'],
  anchors: () => [60, 66, 71, 76, 82],
  otherwise: row([18, 34, 28, 14, 6], 'living heat seldom passes the ceiling by much', sources.cooked),
  rows: {
    smouldering: row([2, 8, 18, 30, 42], 'past biology, heat comes from chemistry', sources.bigPiles),
    'probe-wrong': row([14, 20, 18, 18, 30], 'a failed probe can read anything', sources.probe),
    'hot-weather': row([40, 38, 16, 5, 1], 'sun adds a few degrees, not many', sources.practice),
  },
  say: sayCelsius('its hottest core within a day was'),
};

/** Mean core of the last days, for a pile that dries. */
export const meanCore: ObservationKind = {
  id: 'meanCoreCelsius',
  matter: 'warmth',
  troubles: ['drying-out'],
  outcomes: ['cool', 'mild', 'warm', 'hot', 'very hot'],
  anchors: () => [15, 25, 40, 55, 65],
  otherwise: row([22, 26, 24, 18, 10], 'it can dry at any heat', sources.practice),
  rows: { 'own-heat': row([3, 8, 24, 36, 29], 'it dries itself only while hot', sources.evaporation) },
  say: sayCelsius('mean core of the last days is'),
};
