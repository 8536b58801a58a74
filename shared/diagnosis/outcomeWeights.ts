import type { Banded } from '../compost/forecast/banded.ts';
import type { PileMethod } from '../yard/method.ts';
import type { CauseId } from './causes.ts';
import { ObservationError, type ObservationKind, rowOf, type Seen } from './kind.ts';

/**
 * How far an observation is each of its kind's outcomes; sums to 1. A number between two anchors is partly both, so
 * that nothing jumps at an edge. Throws ObservationError when the kind does not allow it.
 */
export function outcomeWeights(kind: ObservationKind, seen: Seen, method: PileMethod): number[] {
  if (typeof seen === 'string') return oneOutcome(kind, seen);
  if (kind.anchors === null)
    throw new ObservationError(
      kind.id,
      `${kind.id} is ${String(seen)}; allowed are ${kind.outcomes.join(', ')}`,
    );
  const anchors = kind.anchors(method);
  return typeof seen === 'number' ? betweenAnchors(kind, seen, anchors) : overBand(kind, seen, anchors);
}

/** Chance of an observation if a cause is at work. */
export function likelihood(kind: ObservationKind, cause: CauseId, weights: readonly number[]): number {
  const { chances } = rowOf(kind, cause);
  return weights.reduce((sum, weight, index) => sum + weight * (chances[index]! / 100), 0);
}

function oneOutcome(kind: ObservationKind, outcome: string): number[] {
  if (!kind.outcomes.includes(outcome))
    throw new ObservationError(
      kind.id,
      `${kind.id} is "${outcome}"; allowed are ${kind.outcomes.join(', ')}`,
    );
  return kind.outcomes.map((one) => (one === outcome ? 1 : 0));
}

function betweenAnchors(kind: ObservationKind, value: number, anchors: readonly number[]): number[] {
  if (!Number.isFinite(value))
    throw new ObservationError(kind.id, `${kind.id} is ${value}; allowed is any finite number`);
  const last = anchors.length - 1;
  const above = anchors.findIndex((anchor) => anchor >= value);
  const upper = above === -1 ? last : above;
  const lower = above === -1 ? last : Math.max(0, above - 1);
  const span = anchors[upper]! - anchors[lower]!;
  const share = span === 0 ? 1 : Math.max(0, (value - anchors[lower]!) / span);
  return anchors.map((_, index) => (index === upper ? share : index === lower ? 1 - share : 0));
}

/** Swanson's rule (from memory, unconfirmed): 10th, 50th and 90th percentile stand for 30, 40 and 30 % of a spread. */
function overBand(
  kind: ObservationKind,
  { low, middle, high }: Banded,
  anchors: readonly number[],
): number[] {
  const parts = (
    [
      [low, 0.3],
      [middle, 0.4],
      [high, 0.3],
    ] as const
  ).map(([value, share]) => betweenAnchors(kind, value, anchors).map((weight) => weight * share));
  return anchors.map((_, index) => parts.reduce((sum, part) => sum + part[index]!, 0));
}
