import { createHash } from 'node:crypto';
import type { Message } from '../../records/port.ts';
import { noAnswer } from '../http/noAnswer.ts';
import { type PinnedAnswer, postPinned } from '../http/postPinned.ts';
import { isPassing, notBefore } from '../http/retryAfter.ts';
import type { MessageChannel, SendOutcome } from '../messageChannel.ts';
import type { WebhookSettings } from './settings.ts';
import { signedHeaders } from './sign.ts';

/**
 * Messages as signed calls to a web address of the recipient's. The id stays the same over every attempt, the time of
 * signing does not.
 */
export function createWebhook(settings: WebhookSettings, nowMs: () => number): MessageChannel {
  const timeoutMs = settings.timeoutSeconds * 1000;
  const stopping = new AbortController();
  return {
    kind: 'webhook',
    longestSendMs: timeoutMs,
    async send(message) {
      if (stopping.signal.aborted) return { kind: 'retry', detail: 'the webhook channel is closed' };
      const body = new TextEncoder().encode(bodyOf(message));
      const headers = {
        'content-type': 'application/json',
        ...signedHeaders(webhookId(message), Math.floor(nowMs() / 1000), body, settings.secrets),
      };
      try {
        const answer = await postPinned({
          ...{ url: message.address, headers, body, timeoutMs, signal: stopping.signal },
          allowPrivate: settings.allowPrivateAddresses,
        });
        return judge(answer, webhookId(message), nowMs());
      } catch (error) {
        return noAnswer(error, 'receiver', timeoutMs);
      }
    },
    check: async () => ({
      ready: true,
      detail: 'ready to sign; each receiver is met when a message goes to it',
    }),
    async stop() {
      stopping.abort();
    },
  };
}

/** A name for the message without dots, which would blur what is signed; it tells nothing of the yard. */
function webhookId(message: Message): string {
  return `msg_${createHash('sha256').update(message.idempotencyKey).digest('base64url').slice(0, 27)}`;
}

function bodyOf(message: Message): string {
  const { text, priority, yardId, pileId, alarmId, createdMs } = message;
  return JSON.stringify({
    type: 'message',
    timestamp: new Date(createdMs).toISOString(),
    data: { text, priority, yardId, pileId, alarmId },
  });
}

/** Only 2xx is success, 410 is the end, and anything else is tried again until the message is too old (W-21). */
function judge({ status, headers }: PinnedAnswer, reference: string, nowMs: number): SendOutcome {
  const detail = `receiver answered ${status}`;
  if (status >= 200 && status <= 299)
    return { kind: 'sent', detail: `receiver took it (${status})`, reference };
  if (status === 410) return { kind: 'gave-up', detail: `${detail}: it wants no more`, addressGone: true };
  if (isPassing(status)) return { kind: 'retry', detail, ...notBefore(headers['retry-after'], nowMs) };
  if (status < 400)
    return { kind: 'retry', detail: `${detail}: redirects are not followed`, tellOwner: true };
  return { kind: 'retry', detail: `${detail}: it refuses what we send`, tellOwner: true };
}
