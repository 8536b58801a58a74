import type { RetryOutcome, SendOutcome } from '../messageChannel.ts';

/** What nodemailer says of a failure, as far as it is used here. */
interface SmtpFailure {
  readonly code?: string;
  readonly responseCode?: number;
  /** SMTP command that failed; CONN for the connection. */
  readonly command?: string;
  readonly message?: string;
}

const signInCodes = ['EAUTH', 'ENOAUTH', 'EOAUTH2'];
const certificateFault = /certificate|self[- ]signed|altnames/i;
const neverArrived = /ECONNREFUSED|ENOTFOUND|EAI_AGAIN|EHOSTUNREACH|ENETUNREACH/;

/**
 * What a failure over SMTP means. Replies of 400 and above pass, those of 500 and above stay (RFC 5321 section 4.2.1);
 * which command got the reply tells whether the recipient, the sender or the mail is refused.
 */
export function smtpOutcome(error: unknown): SendOutcome {
  const failure = error as SmtpFailure;
  const { code = '', responseCode } = failure;
  if (signInCodes.includes(code)) return signInRefused(responseCode);
  // Without encryption, or with a certificate we cannot trust, nothing is said to anybody.
  if (code === 'ETLS' || certificateFault.test(failure.message ?? ''))
    return { kind: 'retry', detail: 'no safe connection to the mail server (TLS)', tellOwner: true };
  if (responseCode !== undefined && responseCode >= 500) return refused(failure.command ?? '', responseCode);
  if (responseCode !== undefined && responseCode >= 400)
    return { kind: 'retry', detail: `mail server answered ${responseCode}` };
  if (failure.command === 'API') return { kind: 'gave-up', detail: 'its mail cannot be written' };
  return noConnection(failure);
}

function signInRefused(responseCode: number | undefined): RetryOutcome {
  const answer = responseCode === undefined ? '' : ` (${responseCode})`;
  if (responseCode !== undefined && responseCode < 500)
    return { kind: 'retry', detail: `mail server cannot sign us in now${answer}` };
  return { kind: 'retry', detail: `mail server refuses our user name or password${answer}`, tellOwner: true };
}

function refused(command: string, code: number): SendOutcome {
  if (command.startsWith('RCPT'))
    return { kind: 'gave-up', detail: `mail server refuses this address (${code})` };
  if (command.startsWith('DATA'))
    return { kind: 'gave-up', detail: `mail server refuses this mail (${code})` };
  const what = command.startsWith('MAIL') ? 'our sender address' : 'to serve us';
  return { kind: 'retry', detail: `mail server refuses ${what} (${code})`, tellOwner: true };
}

function noConnection({ code, command, message = '' }: SmtpFailure): RetryOutcome {
  const reason = neverArrived.exec(message)?.[0];
  if (reason !== undefined || code === 'EDNS')
    return { kind: 'retry', detail: `mail server cannot be reached (${reason ?? code})` };
  const detail =
    code === 'ETIMEDOUT' ? 'mail server does not answer' : 'connection to the mail server broke off';
  return { kind: 'retry', detail, ...(command === 'CONN' ? { maybeSent: true } : {}) };
}
