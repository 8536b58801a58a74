import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles, waterTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayCelsius, sayNumber, sayOutcome } from './say.ts';
import { sources } from './sources.ts';

/** Mean air of the last three days. */
export const air: ObservationKind = {
  id: 'airCelsius',
  matter: 'weather',
  troubles: [...coldTroubles, ...hotTroubles, 'drying-out'],
  outcomes: ['hard frost', 'frost', 'cool', 'mild', 'hot'],
  anchors: () => [-10, 0, 10, 20, 30],
  otherwise: row([4, 14, 36, 34, 12], 'it happens in any weather', sources.practice),
  rows: {
    'cold-loss': row([26, 38, 27, 7, 2], 'heat is lost in cold weather', sources.size),
    'hot-weather': row([0.3, 0.7, 6, 33, 60], 'it takes hot weather', sources.practice),
  },
  say: sayCelsius('mean air is'),
};

/** Volume of the pile. */
export const volume: ObservationKind = {
  id: 'volumeM3',
  matter: 'size',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['a bucket', 'small', 'one cubic metre', 'medium', 'large', 'very large'],
  anchors: () => [0.1, 0.4, 1, 2.5, 8, 30],
  otherwise: row([3, 10, 30, 30, 16, 11], 'it happens at any size', sources.practice),
  rows: {
    'cold-loss': row([28, 36, 24, 8, 3, 1], 'below about 1 m3 a pile loses heat too fast', sources.size),
    'too-big': row([0.5, 1, 4, 12, 33, 49.5], 'large piles cannot lose their heat', sources.bigPiles),
    smouldering: row([0.5, 1, 3, 10, 30, 55.5], 'large piles smoulder', sources.bigPiles),
  },
  say: sayNumber('its volume is', ' m3', 1),
};

/** Smallest of width, depth and height: how far the core is from the cold. */
export const leastSide: ObservationKind = {
  id: 'leastSideMetres',
  matter: 'size',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['a bucket', 'small', 'usual', 'high', 'very high'],
  anchors: () => [0.4, 0.7, 1.1, 1.7, 2.6],
  otherwise: row([4, 13, 42, 29, 12], 'it happens at any size', sources.practice),
  rows: {
    'cold-loss': row([36, 37, 20, 5, 2], 'below about 0.9 m a pile loses heat too fast', sources.leastSide),
    'too-big': row([0.5, 2, 13, 37, 47.5], 'high piles cannot lose their heat', sources.bigPiles),
    smouldering: row([0.5, 2, 11, 34, 52.5], 'high piles smoulder', sources.bigPiles),
  },
  say: sayNumber('its smallest side is', ' m', 1),
};

/** Water given by hand in the last week, per cubic metre. */
export const watering: ObservationKind = {
  id: 'litresPerM3Week',
  matter: 'watering',
  troubles: [...coldTroubles, ...waterTroubles],
  outcomes: ['none', 'hardly any', 'some', 'much', 'very much'],
  anchors: () => [0, 5, 20, 60, 150],
  otherwise: row([24, 26, 28, 16, 6], 'watering was ordinary', sources.practice),
  rows: {
    'under-watered': row([55, 30, 11, 3, 1], 'it was given little water', sources.practice),
    'too-dry': row([42, 28, 20, 8, 2], 'it was given little water', sources.practice),
    'water-runs-past': row([8, 18, 34, 28, 12], 'it was watered and is dry all the same', sources.practice),
    overwatered: row([1, 5, 18, 38, 38], 'it was given much water', sources.practice),
    airless: row([14, 18, 27, 24, 17], 'water was plentiful', sources.tooWet),
  },
  say: sayNumber('water given this week is', ' litres per m3'),
};

/** Rain of the last week. */
export const rain: ObservationKind = {
  id: 'rainMillimetresWeek',
  matter: 'rain',
  troubles: [...coldTroubles, ...waterTroubles],
  outcomes: ['none', 'a little', 'some', 'much', 'very much'],
  anchors: () => [0, 5, 20, 50, 100],
  otherwise: row([36, 28, 22, 10, 4], 'rain was ordinary', sources.practice),
  rows: {
    rain: row([2, 8, 24, 38, 28], 'it takes much rain', sources.practice),
    'poor-drainage': row([12, 20, 28, 26, 14], 'puddles need rain', sources.practice),
    airless: row([20, 23, 27, 19, 11], 'rain soaks an open pile', sources.tooWet),
    'hot-weather': row([66, 24, 7, 2, 1], 'it has been dry weather', sources.practice),
    'under-watered': row([48, 29, 16, 5, 2], 'rain did not make up for it', sources.practice),
  },
  say: sayNumber('rain this week is', ' mm'),
};

/** Whether it stands under a cover. */
export const cover: ObservationKind = {
  id: 'cover',
  matter: 'cover',
  troubles: [...coldTroubles, ...hotTroubles, ...waterTroubles],
  outcomes: ['covered', 'open'],
  anchors: null,
  otherwise: row([45, 55], 'covered or not makes no difference', sources.practice),
  rows: {
    rain: row([8, 92], 'rain comes in where it is open', sources.practice),
    'covered-tight': row([95, 5], 'it takes a cover', sources.practice),
    'cold-loss': row([32, 68], 'an open pile loses more heat', sources.practice),
    'hot-weather': row([30, 70], 'sun reaches an open pile', sources.practice),
  },
  say: sayOutcome({ covered: 'it is covered', open: 'it is not covered' }),
};

/** Air channels of a cage, or pipes and blower of an aerated pile, as a person found them. */
export const airPath: ObservationKind = {
  id: 'airPath',
  matter: 'air path',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['open', 'blocked'],
  anchors: null,
  otherwise: row([88, 12], 'channels or pipes are open', sources.practice),
  rows: {
    'air-path-blocked': row(
      [6, 94],
      'channels or pipes are blocked, or the blower is off',
      sources.airWithin,
    ),
  },
  say: sayOutcome({
    open: 'air channels or pipes were found open',
    blocked: 'air channels or pipes were found blocked',
  }),
};

/** Water standing at the base. */
export const baseWater: ObservationKind = {
  id: 'baseWater',
  matter: 'base',
  troubles: [...coldTroubles, 'too-wet'],
  outcomes: ['dry', 'standing'],
  anchors: null,
  otherwise: row([85, 15], 'its base is dry', sources.practice),
  rows: {
    'poor-drainage': row([12, 88], 'water stands at the base', sources.practice),
    airless: row([55, 45], 'a sodden pile seeps', sources.practice),
    overwatered: row([55, 45], 'surplus water seeps out', sources.practice),
    rain: row([60, 40], 'rain collects around it', sources.practice),
  },
  say: sayOutcome({ dry: 'its base is dry', standing: 'water stands at its base' }),
};
