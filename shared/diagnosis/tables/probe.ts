import type { ObservationKind } from '../kind.ts';
import { coldTroubles, hotTroubles, waterTroubles } from '../trouble.ts';
import { row } from './row.ts';
import { sayDifference, sayOutcome, sayPercent } from './say.ts';
import { sources } from './sources.ts';

/** How far a second core channel is from the judged one, without sign. */
export const coresApart: ObservationKind = {
  id: 'coresApartCelsius',
  matter: 'cores',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['none', 'small', 'clear', 'large', 'very large'],
  anchors: () => [0, 3, 8, 15, 25],
  otherwise: row([32, 36, 22, 8, 2], 'two probes in a core roughly agree', sources.probe),
  rows: {
    'probe-wrong': row([8, 13, 20, 27, 32], 'one of the probes tells another story', sources.probe),
    'air-path-blocked': row(
      [16, 26, 30, 19, 9],
      'a blocked channel troubles one side first',
      sources.airWithin,
    ),
  },
  say: sayDifference('two core probes differ by'),
};

/** Daily swing of the core as a share of the daily swing of the air. */
export const followsAir: ObservationKind = {
  id: 'followsAir',
  matter: 'daily swing',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['not', 'hardly', 'partly', 'closely'],
  anchors: () => [0, 0.15, 0.4, 0.8],
  otherwise: row([48, 34, 14, 4], 'a core does not follow day and night', sources.slowPile),
  rows: {
    'probe-wrong': row([14, 20, 30, 36], 'a probe near the surface follows day and night', sources.slowPile),
    'cold-loss': row([28, 36, 27, 9], 'a small pile follows the weather a little', sources.slowPile),
    'hot-weather': row([24, 32, 28, 16], 'sun shows as a daily wave', sources.practice),
  },
  say: sayPercent('its daily swing, of that of the air, is'),
};

/** How far a hand thermometer in the same place is from the probe, without sign. */
export const handAgainstProbe: ObservationKind = {
  id: 'handMinusProbeCelsius',
  matter: 'hand',
  troubles: [...coldTroubles, ...hotTroubles],
  outcomes: ['agrees', 'near', 'differs', 'differs much'],
  anchors: () => [0, 3, 8, 15],
  otherwise: row([56, 37, 6, 1], 'hand thermometer and probe agree', sources.probe),
  rows: { 'probe-wrong': row([5, 11, 29, 55], 'the hand thermometer shows something else', sources.probe) },
  say: sayDifference('hand thermometer and probe differ by'),
};

/** Bad or suspect values lately, or a probe pulled and not put back. */
export const probeHistory: ObservationKind = {
  id: 'probeHistory',
  matter: 'probe history',
  troubles: [...coldTroubles, ...hotTroubles, ...waterTroubles],
  outcomes: ['clean', 'doubtful'],
  anchors: null,
  otherwise: row([92, 8], 'its values have been clean', sources.probe),
  rows: { 'probe-wrong': row([45, 55], 'a failing probe shows bad values', sources.probe) },
  say: sayOutcome({
    clean: 'the probe has given clean values',
    doubtful: 'the probe was pulled or gave doubtful values',
  }),
};
