import type { PileMethod } from '../../yard/method.ts';
import type { Stage } from '../../yard/yard.ts';
import type { CauseId } from '../causes.ts';
import type { Trouble } from '../trouble.ts';
import type { Deed, MoistureEvidence } from './safety.ts';

/** One reviewed step of advice. Fields left out mean "any". A step is given only where all its deeds are safe. */
export interface AdviceStep {
  readonly text: string;
  /** The same in at most 60 characters, for a text; left out where it cannot come first. */
  readonly short?: string;
  readonly deeds: readonly Deed[];
  readonly troubles?: readonly Trouble[];
  readonly methods?: readonly PileMethod[];
  readonly stages?: readonly Stage[];
  readonly moisture?: readonly MoistureEvidence[];
  /** Hottest core of the last day at or above, and below. */
  readonly fromCelsius?: number;
  readonly belowCelsius?: number;
  readonly source: string;
}

/** Steps for each cause, most useful first. */
export type StepsByCause = Readonly<Partial<Record<CauseId, readonly AdviceStep[]>>>;

export const practice = 'common practice, no source';
export const turned: readonly PileMethod[] = ['hot-bin', 'turned-windrow'];
export const unturned: readonly PileMethod[] = [
  'static-cage',
  'aerated-static-pile',
  'worm-bed',
  'curing-heap',
  'leaf-heap',
];
/** Moisture evidence that does not forbid water. */
export const notWet: readonly MoistureEvidence[] = ['fine', 'too-dry'];
