import { z } from 'zod';
import { roles } from '../yard/people.ts';
import { idSchema, nameSchema, timeMsSchema, tokenSchema } from './common.ts';
import { shortestPassword } from './constants.ts';
import { yardFieldsSchema, yardSchema } from './yard.ts';

/** Sign-in name: lower case, so that it can be typed on any phone. */
export const loginSchema = z
  .string()
  .trim()
  .toLowerCase()
  .regex(/^[a-z0-9][a-z0-9._-]{1,39}$/, '2 to 40 of a-z 0-9 . _ -, starting with a letter or digit');

/** Any characters; at most 256 so that hashing stays cheap. No composition rules (ASVS 6.2.5). */
export const newPasswordSchema = z.string().min(shortestPassword).max(256);

export const signInSchema = z.strictObject({
  login: z.string().min(1).max(80),
  password: z.string().min(1).max(256),
});
export type SignIn = z.infer<typeof signInSchema>;

export const sessionPersonSchema = z.object({
  id: idSchema,
  login: z.string(),
  name: z.string(),
  role: z.enum(roles),
});
export type SessionPerson = z.infer<typeof sessionPersonSchema>;

/** Who is asking. `wall` is a read-only screen let in by a wall link; it has no person. */
export const sessionSchema = z.object({
  kind: z.enum(['none', 'person', 'wall']),
  person: sessionPersonSchema.nullable(),
  yard: yardSchema.nullable(),
  /** True until the first owner has used the set-up link printed at first start. */
  firstSetUpNeeded: z.boolean(),
  nowMs: timeMsSchema,
});
export type SessionView = z.infer<typeof sessionSchema>;

/** Links carry their token in the address's fragment, which browsers keep to themselves: `/#/sign-in/<token>`. */
export const linkTokenSchema = z.strictObject({ token: tokenSchema });
export type LinkToken = z.infer<typeof linkTokenSchema>;

export const linkPurposes = ['first-setup', 'set-password', 'sign-in'] as const;

/** What a link is for, without using it up. */
export const linkViewSchema = z.object({
  purpose: z.enum(linkPurposes),
  login: z.string().nullable(),
  name: z.string().nullable(),
  expiresMs: timeMsSchema,
});
export type LinkView = z.infer<typeof linkViewSchema>;

export const firstSetUpSchema = z.strictObject({
  token: tokenSchema,
  yard: yardFieldsSchema,
  person: z.strictObject({ login: loginSchema, name: nameSchema, password: newPasswordSchema }),
});
export type FirstSetUp = z.infer<typeof firstSetUpSchema>;

export const setPasswordSchema = z.strictObject({ token: tokenSchema, password: newPasswordSchema });
export type SetPassword = z.infer<typeof setPasswordSchema>;

export const confirmSchema = z.strictObject({ password: z.string().min(1).max(256) });
export type Confirm = z.infer<typeof confirmSchema>;

export const changePasswordSchema = z.strictObject({
  currentPassword: z.string().min(1).max(256),
  newPassword: newPasswordSchema,
});
export type ChangePassword = z.infer<typeof changePasswordSchema>;
