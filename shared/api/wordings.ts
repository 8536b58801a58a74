import { z } from 'zod';
import { wordingOverridesSchema } from '../messages/wordingOverrides.ts';
import { wordingKeys } from '../messages/wordings.ts';
import { languages } from '../messages/words/languageNames.ts';
import { timeMsSchema } from './common.ts';

const wordingKey = z.enum(wordingKeys);

/** What texts are made of here, and what a preview needs to look like the real ones. */
export const wordingsSchema = z.object({
  /** 0: never changed, all words are ours. */
  version: z.int(),
  overrides: wordingOverridesSchema,
  /** Name of who saved it. */
  by: z.string().nullable(),
  savedMs: timeMsSchema,
  /** For previews: the yard's own piles, and an address of the length of a real one. */
  example: z.object({
    yardName: z.string(),
    temperatureUnit: z.enum(['C', 'F']),
    piles: z.array(z.object({ name: z.string(), place: z.string() })).readonly(),
    link: z.string().nullable(),
    canReply: z.boolean(),
  }),
});
export type WordingsView = z.infer<typeof wordingsSchema>;

/** One text in one language; null: ours again. Everything else stays as it is. */
export const saveWordingSchema = z.strictObject({
  expectedVersion: z.int().min(0),
  language: z.enum(languages),
  key: wordingKey,
  template: z.string().nullable(),
});
export type SaveWording = z.infer<typeof saveWordingSchema>;
