import type { Alarm, AlarmTransition } from '../alarms/alarm.ts';
import { advance } from './assess.ts';
import { createPileSubject, type PileLimits, type PileSample } from './pileSubject.ts';
import type { PileFacts } from './pileWindow.ts';

export interface Replay {
  readonly alarms: readonly Alarm[];
  readonly transitions: readonly AlarmTransition[];
}

/**
 * Judges a stretch of a pile's past by the same functions that judge the present. `samples` in time order.
 * Throws LimitError when a limit is not allowed.
 */
export function replay(
  facts: PileFacts,
  limits: PileLimits,
  samples: readonly PileSample[],
  toMs: number,
): Replay {
  const { subject } = createPileSubject(facts, limits);
  const { transitions } = advance(subject, samples, toMs);
  return { alarms: [...subject.alarms.values()], transitions };
}
