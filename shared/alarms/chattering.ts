import type { Evidence } from './alarm.ts';

/**
 * From how many activations within which time an alarm counts as chattering, and how long it must then be back before
 * it returns to normal. The standards only say "in and out repeatedly in a short time", and the numbers in use are for
 * plant that moves in seconds (3 in 60 s the commonest); a pile moves over hours, so these are our own.
 */
export const chatterLimits = { activations: 3, withinHours: 6, offDelayMinutes: 240 } as const;

/**
 * What comes with the day's warmth and goes with the night's: again after half a day to a day and a half. A day and a
 * half of being back means that a whole day passed without it. Its first two comings are told as ever.
 */
export const dailyLimits = { fromHours: 12, withinHours: 36, offDelayMinutes: 2160 } as const;

/** Whether the latest activations, newest first, came so fast after one another that the alarm is held. */
export function isChattering(activationsMs: readonly number[]): boolean {
  const oldestMs = activationsMs[chatterLimits.activations - 1];
  return oldestMs !== undefined && activationsMs[0]! - oldestMs <= chatterLimits.withinHours * 3_600_000;
}

function comesDaily([latestMs, beforeMs]: readonly number[]): boolean {
  if (latestMs === undefined || beforeMs === undefined) return false;
  const hours = (latestMs - beforeMs) / 3_600_000;
  return hours >= dailyLimits.fromHours && hours <= dailyLimits.withinHours;
}

/** How long an alarm that has just become active must be back before it returns; 0 = as its own limits say. */
export function holdMinutes(activationsMs: readonly number[]): number {
  if (isChattering(activationsMs)) return chatterLimits.offDelayMinutes;
  return comesDaily(activationsMs) ? dailyLimits.offDelayMinutes : 0;
}

/** Says in an alarm's evidence why it stays although its condition came back. */
export function heldEvidence(heldMinutes: number): Evidence {
  const isDaily = heldMinutes === dailyLimits.offDelayMinutes;
  const what = isDaily
    ? 'comes and goes with the day'
    : `came and went ${chatterLimits.activations} times within ${chatterLimits.withinHours} h`;
  return { label: `${what}: held until back for`, value: heldMinutes / 60, unit: 'h' };
}
