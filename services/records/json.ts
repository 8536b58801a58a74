import { z } from 'zod';
import type { AlarmEvent, Evidence } from '../../shared/alarms/alarm.ts';
import { type DutyPlan, dutyPlanSchema } from '../../shared/messages/dutyPlan.ts';
import { wordingOverridesSchema } from '../../shared/messages/wordingOverrides.ts';
import type { WordingOverrides } from '../../shared/messages/wordings.ts';
import { type PileBuild, pileBuildSchema } from '../../shared/yard/build.ts';
import { type DeedAnswer, type LimitOverrides, RecordsError } from './port.ts';

/** A JSON column: checked when written, so that no row can be stored that could not be read, and parsed when read. */
export interface JsonColumn<Value> {
  /** @throws RecordsError naming `field` and the place within it. */
  write(value: Value, field: string): string;
  read(text: string): Value;
}

export const evidenceColumn: JsonColumn<readonly Evidence[]> = jsonColumn(
  z.array(z.strictObject({ label: z.string(), value: z.union([z.number(), z.string()]), unit: z.string() })),
);

export const overridesColumn: JsonColumn<LimitOverrides> = jsonColumn(
  z.record(z.string(), z.record(z.string(), z.union([z.number(), z.boolean(), z.null()]))),
);

export const buildColumn: JsonColumn<PileBuild> = jsonColumn(pileBuildSchema);

export const dutyPlanColumn: JsonColumn<DutyPlan> = jsonColumn(dutyPlanSchema);

export const wordingsColumn: JsonColumn<WordingOverrides> = jsonColumn<WordingOverrides>(
  wordingOverridesSchema as z.ZodType<WordingOverrides>,
);

const byPerson = { atMs: z.number(), by: z.string() };

/** What a person can do to an alarm. */
export const deedEventColumn: JsonColumn<AlarmEvent> = jsonColumn(
  z.discriminatedUnion('kind', [
    z.object({ ...byPerson, kind: z.enum(['acknowledge', 'return-to-service', 'reset']) }),
    z.object({ ...byPerson, kind: z.literal('shelve'), untilMs: z.number(), reason: z.string() }),
    z.object({ ...byPerson, kind: z.literal('take-out-of-service'), reason: z.string() }),
    z.object({ kind: z.literal('unshelve'), atMs: z.number(), by: z.string().nullable() }),
  ]),
);

export const deedAnswerColumn: JsonColumn<DeedAnswer> = jsonColumn(
  z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('done') }),
    z.object({ kind: z.literal('refused'), field: z.string(), message: z.string() }),
  ]),
);

function jsonColumn<Value>(schema: z.ZodType<Value>): JsonColumn<Value> {
  return {
    write(value, field) {
      const checked = schema.safeParse(value);
      if (checked.success) return JSON.stringify(checked.data);
      const [issue] = checked.error.issues;
      throw new RecordsError(
        field,
        `${[field, ...(issue?.path ?? [])].join('.')} cannot be stored: ${issue?.message}`,
      );
    },
    read: (text) => schema.parse(JSON.parse(text)),
  };
}
