import { z } from 'zod';
import { journalKinds } from '../yard/journal.ts';
import { idSchema, noteSchema, pressKeySchema, timeMsSchema } from './common.ts';
import { deepestHandMetres, journalValueRanges } from './constants.ts';

export const journalEntrySchema = z.object({
  id: idSchema,
  pileId: idSchema,
  timeMs: timeMsSchema,
  kind: z.enum(journalKinds),
  value: z
    .number()
    .nullable()
    .describe('Celsius (hand reading), litres (watered), 1 dust to 5 drips (squeeze test)'),
  note: z.string(),
  /** Name of the person; null when the system wrote it. */
  by: z.string().nullable(),
  recordedAtMs: timeMsSchema,
  depthMetres: z.number().nullable().describe('How deep a hand reading was taken'),
  /** Size of its photo, `GET /api/journal/:entryId/photo`. */
  photo: z.object({ widthPixels: z.int(), heightPixels: z.int() }).nullable(),
  /** Until when the asking person may take it back as a wrong press; null when they may not. */
  takeBackUntilMs: timeMsSchema.nullable(),
});
export type JournalEntryView = z.infer<typeof journalEntrySchema>;

const rangesByKind: Readonly<
  Record<string, { minimum: number; maximum: number; unit: string; required: boolean } | undefined>
> = journalValueRanges;

export const newJournalEntrySchema = z
  .strictObject({
    kind: z.enum(journalKinds),
    timeMs: timeMsSchema,
    value: z.number().nullable().default(null),
    note: noteSchema.default(''),
    depthMetres: z
      .number()
      .min(0)
      .max(deepestHandMetres)
      .nullable()
      .default(null)
      .describe('How deep a hand reading was taken; other kinds take none'),
    pressKey: pressKeySchema.nullable().default(null),
  })
  .superRefine((entry, context) => {
    const complaint = valueComplaint(entry.kind, entry.value);
    if (entry.depthMetres !== null && entry.kind !== 'hand-reading')
      context.addIssue({
        code: 'custom',
        path: ['depthMetres'],
        message: `no depth for ${entry.kind}`,
        input: entry.depthMetres,
      });
    if (complaint !== null) {
      context.addIssue({ code: 'custom', path: ['value'], message: complaint, input: entry.value });
    }
  });
export type NewJournalEntry = z.input<typeof newJournalEntrySchema>;

function valueComplaint(kind: string, value: number | null): string | null {
  const range = rangesByKind[kind];
  if (range === undefined) return value === null ? null : `no number for ${kind}`;
  if (value === null) return range.required ? `a number for ${kind}` : null;
  const inside = value >= range.minimum && value <= range.maximum;
  return inside ? null : `${range.minimum} to ${range.maximum} ${range.unit}`.trim();
}
