import { z } from 'zod';

/** SMTP server that takes our mail. */
export const emailSchema = z
  .strictObject({
    host: z.string().min(1).describe('Mail server'),
    port: z.int().min(1).max(65_535).default(587).describe('Its port: 587 with starttls, 465 with tls'),
    security: z
      .enum(['starttls', 'tls', 'none'])
      .default('starttls')
      .describe('Encryption; none only for a server on this machine or in this network'),
    caFile: z
      .string()
      .min(1)
      .nullable()
      .default(null)
      .describe('PEM file of your own certificate authority; null: those the machine trusts'),
    user: z
      .string()
      .min(1)
      .nullable()
      .default(null)
      .describe('User name at the mail server; null signs in as nobody'),
    password: z.string().min(1).nullable().default(null).describe('Password at the mail server'),
    from: z.email().describe('Address our mail comes from'),
    fromName: z.string().default('Tilthwatch').describe('Name our mail comes from'),
    replyTo: z.email().nullable().default(null).describe('Where answers go; null: to `from`'),
    phoneAddress: z
      .string()
      .refine((form) => /\{\{(number|digits)\}\}/.test(form) && form.includes('@'), {
        message: 'allowed: an address with {{number}} (+441632960123) or {{digits}} (441632960123) in it',
      })
      .nullable()
      .default(null)
      .describe(
        'Address that makes a text of a mail, e.g. {{digits}}@sms.example.org; null: mail goes to addresses only',
      ),
    timeoutSeconds: z.number().min(1).max(120).default(30).describe('Longest wait for the mail server, s'),
  })
  .refine(({ user, password }) => (user === null) === (password === null), {
    message: 'allowed: user and password together, or neither',
    path: ['user'],
  });

export type EmailSettings = z.infer<typeof emailSchema>;
