import { readFileSync } from 'node:fs';
import { createTransport } from 'nodemailer';
import type { MessageChannel, SendOutcome } from '../messageChannel.ts';
import { mailOf } from './mailOf.ts';
import type { EmailSettings } from './settings.ts';
import { smtpOutcome } from './smtpOutcome.ts';

/**
 * Messages as mail over SMTP; a phone number becomes an address of a mail-to-text gateway where one is set up.
 * @throws Error when the file of the certificate authority cannot be read.
 */
export function createEmail(settings: EmailSettings): MessageChannel {
  const timeoutMs = settings.timeoutSeconds * 1000;
  const transport = openTransport(settings, timeoutMs);
  let stopped = false;
  return {
    kind: 'email',
    longestSendMs: timeoutMs,
    async send(message) {
      if (stopped) return { kind: 'retry', detail: 'the mail channel is closed' };
      const mail = mailOf(message, settings);
      if (mail === null) return { kind: 'gave-up', detail: 'its address is not one mail can go to' };
      try {
        const { messageId } = await inTime(transport.sendMail(mail), timeoutMs);
        return { kind: 'sent', detail: 'mail server took it', reference: messageId };
      } catch (error) {
        return error instanceof OutOfTime ? tooSlow(settings.timeoutSeconds) : smtpOutcome(error);
      }
    },
    async check() {
      try {
        await inTime(transport.verify(), timeoutMs);
        return { ready: true, detail: 'mail server answers and takes our sign-in' };
      } catch (error) {
        const outcome = error instanceof OutOfTime ? tooSlow(settings.timeoutSeconds) : smtpOutcome(error);
        const needsOwner = outcome.kind !== 'sent' && outcome.tellOwner === true;
        return { ready: false, detail: outcome.detail, ...(needsOwner ? { tellOwner: true } : {}) };
      }
    },
    async stop() {
      stopped = true;
      transport.close();
    },
  };
}

function openTransport({ host, port, security, user, password, caFile }: EmailSettings, timeoutMs: number) {
  return createTransport({
    host,
    port,
    secure: security === 'tls',
    requireTLS: security === 'starttls',
    ignoreTLS: security === 'none',
    ...(user === null || password === null ? {} : { auth: { user, pass: password } }),
    ...(caFile === null ? {} : { tls: { ca: readAuthority(caFile) } }),
    // Each step may take all of the time; the whole is held to it from outside.
    connectionTimeout: timeoutMs,
    greetingTimeout: timeoutMs,
    socketTimeout: timeoutMs,
    dnsTimeout: timeoutMs,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
}

function readAuthority(caFile: string): string {
  try {
    return readFileSync(caFile, 'utf8');
  } catch {
    throw new Error(`email.caFile = ${caFile}: allowed a PEM file that can be read`);
  }
}

class OutOfTime extends Error {}

async function inTime<Value>(work: Promise<Value>, timeoutMs: number): Promise<Value> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new OutOfTime()), timeoutMs);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

function tooSlow(timeoutSeconds: number): SendOutcome {
  return { kind: 'retry', detail: `mail server did not answer within ${timeoutSeconds} s`, maybeSent: true };
}
