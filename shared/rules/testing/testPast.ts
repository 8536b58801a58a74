import type { PileLimits, PileSample } from '../pileSubject.ts';
import type { PileFacts } from '../pileWindow.ts';
import { flagOfReason, type Past } from '../replayPast.ts';

const flags = { good: 0, suspect: 1, bad: 2 } as const;

/** A past in columns from samples in time order. */
export function pastOf(facts: PileFacts, samples: readonly PileSample[], toMs: number): Past {
  const channels = facts.placed.map(({ placement: { id } }) => {
    const own = samples.filter(({ placementId }) => placementId === id);
    return {
      placementId: id,
      timesMs: Float64Array.from(own, ({ timeMs }) => timeMs),
      values: Float64Array.from(own, ({ value }) => value),
      quality: Uint8Array.from(own, ({ quality }) => flags[quality]),
      reasons: Uint8Array.from(own, ({ reason }) => flagOfReason(reason ?? null)),
    };
  });
  return { facts, channels, toMs };
}

/** Limits of the ceiling, all else as the method has it. */
export function ceilingLimits(change: Readonly<Record<string, number>>, version = 1): PileLimits {
  return { version, overrides: { 'too-hot-ceiling': change } };
}
