import { createHash } from 'node:crypto';
import webPush from 'web-push';
import type { Message } from '../../records/port.ts';
import { noAnswer } from '../http/noAnswer.ts';
import { type PinnedAnswer, postPinned } from '../http/postPinned.ts';
import { isPassing, notBefore } from '../http/retryAfter.ts';
import type { ChannelCheck, MessageChannel, SendOutcome } from '../messageChannel.ts';
import { pushPayload } from './pushPayload.ts';
import { subscriptionSchema, type WebPushSettings } from './settings.ts';
import type { VapidKeys } from './vapidKeys.ts';

/** Longest a push service is asked to keep a message, s: four weeks, as long as they usually keep any. */
const longestKeptSeconds = 28 * 86_400;

/**
 * Messages to browsers by web push (RFC 8030, encrypted by RFC 8291, signed by RFC 8292). The address of a message is the
 * browser's subscription as JSON; its endpoint came from outside, so it is called as any address people give us.
 */
export function createWebPush(
  settings: WebPushSettings,
  keys: VapidKeys,
  nowMs: () => number,
): MessageChannel {
  const timeoutMs = settings.timeoutSeconds * 1000;
  const stopping = new AbortController();
  const vapidDetails = { subject: settings.contact, ...keys };
  return {
    kind: 'web-push',
    publicKey: keys.publicKey,
    longestSendMs: timeoutMs,
    async send(message) {
      if (stopping.signal.aborted) return { kind: 'retry', detail: 'the push channel is closed' };
      const push = encrypted(message, vapidDetails, nowMs());
      if (push === null)
        return { kind: 'gave-up', detail: 'its subscription cannot be used', addressGone: true };
      try {
        const { allowPrivateAddresses: allowPrivate } = settings;
        const answer = await postPinned({ ...push, timeoutMs, allowPrivate, signal: stopping.signal });
        return judge(answer, nowMs());
      } catch (error) {
        return noAnswer(error, 'push service', timeoutMs);
      }
    },
    check: async () => checkKeys(vapidDetails),
    async stop() {
      stopping.abort();
    },
  };
}

type VapidDetails = VapidKeys & { readonly subject: string };

/** Address, headers and encrypted body; null when the subscription is not one. */
function encrypted(message: Message, vapidDetails: VapidDetails, nowMs: number) {
  const subscription = subscriptionSchema.safeParse(parsed(message.address));
  if (!subscription.success) return null;
  const secondsLeft = Math.ceil((message.expiresMs - nowMs) / 1000);
  try {
    const details = webPush.generateRequestDetails(subscription.data, pushPayload(message), {
      vapidDetails,
      TTL: Math.min(Math.max(0, secondsLeft), longestKeptSeconds),
      urgency: message.priority === 'low' ? 'normal' : 'high',
      topic: topicOf(message),
    });
    const headers = Object.entries(details.headers).map(([name, value]) => [name, String(value)]);
    return { url: details.endpoint, headers: Object.fromEntries(headers), body: details.body };
  } catch {
    return null;
  }
}

/**
 * A waiting message of the same topic gives way to the newer one: a repeated attempt replaces its first copy, and a phone
 * that was off all night is told how an alarm stands, not how it came to that.
 */
function topicOf({ yardId, alarmId, idempotencyKey }: Message): string {
  const subject = alarmId === null ? idempotencyKey : `${yardId} ${alarmId}`;
  return createHash('sha256').update(subject).digest('base64url').slice(0, 32);
}

function judge({ status, headers }: PinnedAnswer, nowMs: number): SendOutcome {
  const detail = `push service answered ${status}`;
  if (status >= 200 && status <= 299)
    return { kind: 'sent', detail: `push service took it (${status})`, reference: headers.location ?? null };
  if (status === 404 || status === 410)
    return { kind: 'gave-up', detail: `${detail}: the browser no longer subscribes`, addressGone: true };
  if (isPassing(status)) return { kind: 'retry', detail, ...notBefore(headers['retry-after'], nowMs) };
  if (status === 401 || status === 403)
    return { kind: 'retry', detail: `${detail}: it refuses our signing keys`, tellOwner: true };
  return { kind: 'gave-up', detail: `${detail}: it refuses this message` };
}

function checkKeys({ subject, publicKey, privateKey }: VapidDetails): ChannelCheck {
  try {
    webPush.getVapidHeaders('https://push.example', subject, publicKey, privateKey, 'aes128gcm');
    return { ready: true, detail: 'ready to sign; push services are met when a message goes to one' };
  } catch {
    return {
      ready: false,
      detail: 'the signing keys or the contact address cannot be used',
      tellOwner: true,
    };
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
