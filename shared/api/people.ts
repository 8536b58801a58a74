import { z } from 'zod';
import { priorities } from '../alarms/alarm.ts';
import { languages } from '../messages/words/languageNames.ts';
import { roles } from '../yard/people.ts';
import { idSchema, nameSchema, phoneSchema, timeMsSchema } from './common.ts';
import { loginSchema } from './session.ts';

export const personSchema = z.object({
  id: idSchema,
  login: z.string(),
  name: z.string(),
  role: z.enum(roles),
  phone: z.string().nullable(),
  receivesTexts: z.boolean(),
  textsFrom: z.enum(priorities).describe('Least pressing priority this person is texted for'),
  disabled: z.boolean(),
  language: z.enum(languages).describe('What texts to this person are written in'),
});
export type PersonView = z.infer<typeof personSchema>;

export const newPersonSchema = z.strictObject({
  login: loginSchema,
  name: nameSchema,
  role: z.enum(roles),
  phone: phoneSchema.nullable().default(null),
  receivesTexts: z.boolean().default(false),
  textsFrom: z.enum(priorities).default('medium'),
  language: z.enum(languages).default('en'),
});
export type NewPerson = z.input<typeof newPersonSchema>;

export const personChangeSchema = z.strictObject({
  name: nameSchema.optional(),
  role: z.enum(roles).optional(),
  phone: phoneSchema.nullable().optional(),
  receivesTexts: z.boolean().optional(),
  textsFrom: z.enum(priorities).optional(),
  language: z.enum(languages).optional(),
  disabled: z.boolean().optional(),
});
export type PersonChange = z.infer<typeof personChangeSchema>;

/** A one-time link to hand over; shown once. */
export const handOverLinkSchema = z.object({ url: z.string(), expiresMs: timeMsSchema });
export type HandOverLink = z.infer<typeof handOverLinkSchema>;
