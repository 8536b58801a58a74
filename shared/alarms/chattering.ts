import type { Evidence } from './alarm.ts';

/**
 * From how many activations within which time an alarm counts as chattering, and how long it must then be back before
 * it returns to normal. The standards only say "in and out repeatedly in a short time", and the numbers in use are for
 * plant that moves in seconds (3 in 60 s the commonest); a pile moves over hours, so these are our own.
 */
export const chatterLimits = { activations: 3, withinHours: 6, offDelayMinutes: 240 } as const;

/** Whether the latest activations, newest first, came so fast after one another that the alarm is held. */
export function isChattering(activationsMs: readonly number[]): boolean {
  const oldestMs = activationsMs[chatterLimits.activations - 1];
  return oldestMs !== undefined && activationsMs[0]! - oldestMs <= chatterLimits.withinHours * 3_600_000;
}

/** Says in an alarm's evidence why it stays although its condition came back. */
export const chatterEvidence: Evidence = {
  label: `came and went ${chatterLimits.activations} times within ${chatterLimits.withinHours} h: held until back for`,
  value: chatterLimits.offDelayMinutes / 60,
  unit: 'h',
};
