import { z } from 'zod';
import { conditionIds } from '../alarms/alarm.ts';
import { pileMethods } from '../yard/method.ts';
import { idSchema, reasonSchema, timeMsSchema } from './common.ts';

const limitValueSchema = z.union([z.number(), z.boolean(), z.null()]);
export type LimitValue = z.infer<typeof limitValueSchema>;

/**
 * Only what differs from the method's defaults: `{ "too-hot-ceiling": { "limitCelsius": 68 } }`. When saving, null means
 * back to the default.
 */
export const limitOverridesSchema = z.record(z.string(), z.record(z.string(), limitValueSchema));
export type LimitOverridesView = z.infer<typeof limitOverridesSchema>;

/** One number of a condition: what it is, what is allowed, the method's default and what is in force. */
export const limitParameterSchema = z.object({
  key: z.string(),
  unit: z.string(),
  description: z.string().nullable(),
  kind: z.enum(['number', 'boolean']),
  minimum: z.number().nullable(),
  maximum: z.number().nullable(),
  nullable: z.boolean(),
  default: limitValueSchema,
  value: limitValueSchema,
});
export type LimitParameter = z.infer<typeof limitParameterSchema>;

export const limitConditionSchema = z.object({
  condition: z.enum(conditionIds),
  name: z.string(),
  source: z.string(),
  parameters: z.array(limitParameterSchema).readonly(),
});
export type LimitCondition = z.infer<typeof limitConditionSchema>;

export const limitsVersionSchema = z.object({
  version: z.int().describe('0 = the method defaults, never changed'),
  overrides: limitOverridesSchema,
  reason: z.string(),
  by: z.string().nullable(),
  savedMs: timeMsSchema,
});
export type LimitsVersionView = z.infer<typeof limitsVersionSchema>;

export const limitsSchema = z.object({
  pileId: idSchema,
  method: z.enum(pileMethods),
  current: limitsVersionSchema,
  conditions: z.array(limitConditionSchema).readonly(),
  /** Newest first. */
  history: z.array(limitsVersionSchema).readonly(),
});
export type LimitsView = z.infer<typeof limitsSchema>;

export const saveLimitsSchema = z.strictObject({
  expectedVersion: z.int().min(0),
  overrides: limitOverridesSchema,
  reason: reasonSchema,
});
export type SaveLimits = z.infer<typeof saveLimitsSchema>;

/** `POST /api/piles/:pileId/limits/undo`: an earlier version is saved again as the next one. */
export const undoLimitsSchema = z.strictObject({
  expectedVersion: z.int().min(0),
  toVersion: z.int().min(0).optional().describe('Left out: the one before; 0: the method defaults'),
  reason: reasonSchema,
});
export type UndoLimits = z.infer<typeof undoLimitsSchema>;

/** `POST /api/piles/:pileId/limits/copy`: what was changed here replaces what was changed there. */
export const copyLimitsSchema = z.strictObject({
  to: z
    .array(z.strictObject({ pileId: idSchema, expectedVersion: z.int().min(0) }))
    .min(1)
    .max(200),
  reason: reasonSchema,
});
export type CopyLimits = z.infer<typeof copyLimitsSchema>;

export const copiedLimitsSchema = z.object({
  copied: z.array(z.object({ pileId: idSchema, version: z.int() })).readonly(),
  /** Changed by somebody else while copying: look at them again. */
  changedMeanwhile: z.array(idSchema).readonly(),
});
export type CopiedLimits = z.infer<typeof copiedLimitsSchema>;
