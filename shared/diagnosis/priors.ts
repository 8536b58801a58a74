import type { PileMethod } from '../yard/method.ts';
import type { CauseId } from './causes.ts';
import type { Trouble } from './trouble.ts';

type Weights = Readonly<Partial<Record<CauseId, number>>>;

/**
 * How often each cause lies behind a trouble before anything is known of the pile, as weights. A cause that is not
 * named cannot explain the trouble. Every weight is judgement (no survey of causes was found); tune them on the bench.
 */
export const priorWeights: Readonly<Record<Trouble, Weights>> = {
  stalled: {
    'too-dry': 20,
    airless: 14,
    packed: 9,
    'air-path-blocked': 8,
    'cold-loss': 10,
    'nitrogen-short': 8,
    'nitrogen-excess': 1,
    spent: 20,
    overheated: 4,
    recovering: 4,
    'probe-wrong': 7,
    other: 3,
  },
  'never-heated': {
    'too-dry': 20,
    airless: 16,
    packed: 9,
    'air-path-blocked': 3,
    'cold-loss': 18,
    'nitrogen-short': 16,
    'nitrogen-excess': 2,
    spent: 4,
    'probe-wrong': 9,
    other: 3,
  },
  'fell-short': {
    'too-dry': 18,
    airless: 12,
    packed: 9,
    'air-path-blocked': 7,
    'cold-loss': 16,
    'nitrogen-short': 10,
    'nitrogen-excess': 1,
    spent: 12,
    overheated: 4,
    recovering: 6,
    'probe-wrong': 6,
    other: 3,
  },
  'too-hot': {
    'rich-mix': 38,
    'too-big': 15,
    'too-dry-to-cool': 12,
    'air-path-blocked': 9,
    'hot-weather': 6,
    'covered-tight': 7,
    smouldering: 2,
    'probe-wrong': 6,
    other: 3,
  },
  'too-wet': {
    rain: 26,
    overwatered: 20,
    'wet-mix': 18,
    packed: 12,
    'poor-drainage': 12,
    'probe-wrong': 8,
    other: 3,
  },
  'drying-out': {
    'own-heat': 32,
    'under-watered': 22,
    'hot-weather': 14,
    'built-dry': 12,
    'water-runs-past': 8,
    'probe-wrong': 8,
    other: 3,
  },
};

/** What a way of running a pile makes likelier or less likely; 0 where it cannot be. Judgement. */
const methodFactors: Readonly<Record<PileMethod, Weights>> = {
  'static-cage': { 'cold-loss': 1.2, packed: 0.7, airless: 0.7, 'own-heat': 1.2, 'too-big': 0.3 },
  'hot-bin': { 'air-path-blocked': 0, 'cold-loss': 1.3, 'too-big': 0.5, 'water-runs-past': 0.7 },
  'turned-windrow': { 'air-path-blocked': 0, 'cold-loss': 0.6, 'too-big': 1.4, 'poor-drainage': 1.3 },
  'aerated-static-pile': { 'air-path-blocked': 1.8, 'cold-loss': 0.6, packed: 0.8, 'own-heat': 1.3 },
  'worm-bed': { 'air-path-blocked': 0, 'own-heat': 0.3, 'under-watered': 1.5, overwatered: 1.5 },
  'curing-heap': { 'air-path-blocked': 0, spent: 2, 'rich-mix': 0.5, 'too-dry-to-cool': 1.5 },
  'leaf-heap': { 'air-path-blocked': 0, 'nitrogen-short': 2.5, 'rich-mix': 0.4 },
};

/** Chance of each cause before any observation; sums to 1 over the causes that can be. */
export function priorFor(trouble: Trouble, method: PileMethod): Map<CauseId, number> {
  const weights = Object.entries(priorWeights[trouble]) as [CauseId, number][];
  const weighed = weights.map(
    ([cause, weight]) => [cause, weight * (methodFactors[method][cause] ?? 1)] as const,
  );
  const possible = weighed.filter(([, weight]) => weight > 0);
  const sum = possible.reduce((total, [, weight]) => total + weight, 0);
  return new Map(possible.map(([cause, weight]) => [cause, weight / sum]));
}
