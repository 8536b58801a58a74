import type { PileMethod } from '../yard/method.ts';

/** Least moisture (wet basis) a pile of each method wants; sources at the conditions that use it. */
export const driestWanted: Readonly<Record<PileMethod, number>> = {
  'static-cage': 0.6,
  'hot-bin': 0.45,
  'turned-windrow': 0.45,
  'aerated-static-pile': 0.45,
  'worm-bed': 0.6,
  'curing-heap': 0.4,
  'leaf-heap': 0.45,
};

/** Most moisture (wet basis) before air has trouble getting in. */
export const wettestWanted: Readonly<Record<PileMethod, number>> = {
  'static-cage': 0.78,
  'hot-bin': 0.65,
  'turned-windrow': 0.65,
  'aerated-static-pile': 0.65,
  'worm-bed': 0.9,
  'curing-heap': 0.6,
  'leaf-heap': 0.75,
};
