import type { ConditionId } from '../../alarms/alarm.ts';
import type { PileLimits, PileSample } from '../pileSubject.ts';
import type { PileFacts } from '../pileWindow.ts';
import { replay } from '../replay.ts';
import { defaultLimits, hourMs, startMs, testFacts } from './testPile.ts';

/** What happened to one condition's alarm: `['became-active', hours]`. */
export type Step = readonly [event: string, hours: number];

export interface StoryOptions {
  readonly facts?: PileFacts;
  readonly limits?: PileLimits;
  readonly hours: number;
}

/** Judges samples up to some hours after the start and tells the steps of one condition's alarm. */
export function stepsOf(
  condition: ConditionId,
  samples: readonly PileSample[],
  options: StoryOptions,
): Step[] {
  const { facts = testFacts(), limits = defaultLimits, hours } = options;
  const { transitions } = replay(facts, limits, samples, startMs + hours * hourMs);
  return transitions
    .filter(({ alarmId }) => alarmId.endsWith(`.${condition}`))
    .map(({ event, atMs }) => [event, Math.round(((atMs - startMs) / hourMs) * 100) / 100]);
}

/** Only what happened, without when. */
export function eventsOf(
  condition: ConditionId,
  samples: readonly PileSample[],
  options: StoryOptions,
): string[] {
  return stepsOf(condition, samples, options).map(([event]) => event);
}
