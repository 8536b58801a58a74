import { z } from 'zod';
import { type ConditionId, conditionIds } from '../alarms/alarm.ts';
import type { TimerState } from '../alarms/timing.ts';
import type { Standing } from './subject.ts';
import { noTimers } from './timerTrail.ts';

const condition = z.enum(conditionIds);
const timer = z.object({
  active: z.boolean(),
  beyondSinceMs: z.number().nullable(),
  backSinceMs: z.number().nullable(),
  frozenSinceMs: z.number().nullable(),
  heldMinutes: z.number().optional(),
});
const measured = z.object({
  label: z.string(),
  value: z.number(),
  limit: z.number(),
  unit: z.enum(['C', 'fraction', 'min']),
});
const stateSchema = z.object({
  trail: z
    .array(z.object({ atMs: z.number().nullable(), timers: z.array(z.tuple([condition, timer])) }))
    .min(1),
  toldUntilMs: z.number().nullable(),
  lastTextMs: z.array(z.tuple([condition, z.number()])),
  textsDue: z.array(
    z.tuple([condition, z.object({ occurrence: z.int(), dueMs: z.number(), measured: measured.nullable() })]),
  ),
});

/** Everything about a subject's judgement that neither readings nor alarm rows tell, as text to be stored with them. */
export function saveState(subject: Standing): string {
  return JSON.stringify({
    trail: subject.trail.entries.map((entry) => ({
      // JSON has no minus infinity: null stands for "before everything".
      atMs: Number.isFinite(entry.atMs) ? entry.atMs : null,
      timers: [...entry.timers],
    })),
    toldUntilMs: Number.isFinite(subject.toldUntilMs) ? subject.toldUntilMs : null,
    lastTextMs: [...subject.lastTextMs],
    textsDue: [...subject.textsDue],
  });
}

/** Puts a stored state into a fresh subject. Throws a ZodError when the text is not one of ours. */
export function loadState(subject: Standing, text: string): void {
  const state = stateSchema.parse(JSON.parse(text));
  subject.trail.entries.length = 0;
  for (const { atMs, timers } of state.trail)
    subject.trail.entries.push({
      atMs: atMs ?? Number.NEGATIVE_INFINITY,
      timers: timers.length === 0 ? noTimers : new Map<ConditionId, TimerState>(timers),
    });
  subject.toldUntilMs = state.toldUntilMs ?? Number.NEGATIVE_INFINITY;
  for (const [id, atMs] of state.lastTextMs) subject.lastTextMs.set(id, atMs);
  for (const [id, due] of state.textsDue) subject.textsDue.set(id, due);
}

/** Judgement goes on from here: the last sample in the window and the end of the trail. */
export function resumeFrom(subject: Standing, lastSampleMs: number): void {
  subject.lastInstantMs = Math.max(lastSampleMs, subject.trail.entries.at(-1)!.atMs);
  subject.toldUntilMs = Math.max(subject.toldUntilMs, subject.lastInstantMs);
}
