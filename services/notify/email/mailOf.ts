import { createHash } from 'node:crypto';
import type { SendMailOptions } from 'nodemailer';
import { z } from 'zod';
import { isE164 } from '../../../shared/messages/phoneNumber.ts';
import type { Message } from '../../records/port.ts';
import type { EmailSettings } from './settings.ts';

/** Longest subject that a list of mails shows whole. */
const subjectLimit = 70;

/**
 * The mail for a message, or null when its address is neither a mail address nor a phone number we can mail to. The
 * Message-ID is the same over every attempt, so that a mailbox can tell a repetition.
 */
export function mailOf(message: Message, settings: EmailSettings): SendMailOptions | null {
  const isPhone = isE164(message.address);
  const address = isPhone ? phoneAddress(message.address, settings) : message.address;
  if (address === null || !z.email().safeParse(address).success) return null;
  return {
    from: { name: settings.fromName, address: settings.from },
    // As an object it is one address, whatever commas it holds.
    to: { name: '', address },
    ...(settings.replyTo === null ? {} : { replyTo: settings.replyTo }),
    messageId: messageIdOf(message, settings),
    date: new Date(message.createdMs),
    // Gateways to texts put the subject before the text, where it costs a second segment.
    ...(isPhone ? {} : { subject: subjectOf(message.text) }),
    text: message.text,
    priority: message.priority === 'highest' || message.priority === 'high' ? 'high' : 'normal',
    headers: { 'Auto-Submitted': 'auto-generated' },
    disableFileAccess: true,
    disableUrlAccess: true,
  };
}

function phoneAddress(number: string, { phoneAddress: form }: EmailSettings): string | null {
  return form?.replaceAll('{{number}}', number).replaceAll('{{digits}}', number.slice(1)) ?? null;
}

function messageIdOf({ idempotencyKey }: Message, { from }: EmailSettings): string {
  const name = createHash('sha256').update(idempotencyKey).digest('base64url');
  return `<${name}@${from.slice(from.lastIndexOf('@') + 1)}>`;
}

function subjectOf(text: string): string {
  const line = text.split('\n', 1)[0]!.trim();
  return line.length <= subjectLimit ? line : `${line.slice(0, subjectLimit).replace(/\s+\S*$/, '')} ...`;
}
