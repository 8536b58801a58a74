import { isE164 } from '../../shared/messages/phoneNumber.ts';
import { valueAtPointer } from '../../shared/readings/jsonPointer.ts';
import type { Message } from '../records/port.ts';
import { fillTemplate } from './fillTemplate.ts';
import { noAnswer } from './http/noAnswer.ts';
import { isPassing, notBefore } from './http/retryAfter.ts';
import type { ChannelCheck, MessageChannel, SendOutcome } from './messageChannel.ts';
import type { SmsGateway } from './smsGateway.ts';

const contentTypes = {
  json: 'application/json',
  form: 'application/x-www-form-urlencoded',
  text: 'text/plain; charset=utf-8',
} as const;

/** Longest answer that is looked at; a gateway's page of HTML tells nothing more. */
const answerLimitBytes = 16_384;

/** Answers about our account or address rather than about one message. */
const accountStatuses = [401, 402, 403, 407];

/**
 * Texts through any HTTP gateway described by configuration. The message's idempotency key goes along as `{{id}}` and in
 * an `Idempotency-Key` header, so that a gateway that honours it sends a repeated attempt only once.
 */
export function createSmsHttp(gateway: SmsGateway, nowMs: () => number): MessageChannel {
  const stopping = new AbortController();
  const limits = () => AbortSignal.any([stopping.signal, AbortSignal.timeout(gateway.timeoutSeconds * 1000)]);
  return {
    kind: 'sms-http',
    longestSendMs: gateway.timeoutSeconds * 1000,
    async send(message) {
      if (stopping.signal.aborted) return { kind: 'retry', detail: 'the gateway channel is closed' };
      if (!isE164(message.address))
        return {
          kind: 'gave-up',
          detail: 'its number is not written internationally, with + and country code',
        };
      try {
        const answer = await request(gateway, message, limits());
        return judge(gateway, answer, await readLimited(answer), nowMs());
      } catch (error) {
        return noAnswer(error, 'gateway', gateway.timeoutSeconds * 1000);
      }
    },
    async check() {
      try {
        return await look(gateway, limits());
      } catch (error) {
        return { ready: false, detail: noAnswer(error, 'gateway', gateway.timeoutSeconds * 1000).detail };
      }
    },
    async stop() {
      stopping.abort();
    },
  };
}

function request(gateway: SmsGateway, message: Message, signal: AbortSignal): Promise<Response> {
  const values = {
    ...{ to: message.address, digits: message.address.slice(1), text: message.text },
    ...{ id: message.idempotencyKey, from: gateway.from },
  };
  const { body } = gateway;
  const sendsBody = body !== null && gateway.method !== 'GET';
  return fetch(fillTemplate(gateway.url, 'url', values), {
    method: gateway.method,
    headers: {
      ...(sendsBody ? { 'content-type': contentTypes[body.kind] } : {}),
      'idempotency-key': message.idempotencyKey,
      ...filledHeaders(gateway, values),
    },
    ...(sendsBody ? { body: fillTemplate(body.template, body.kind, values) } : {}),
    // A redirect would carry phone numbers and keys to an address nobody configured.
    redirect: 'manual',
    signal,
  });
}

function filledHeaders(
  gateway: SmsGateway,
  values: Readonly<Record<string, string>>,
): Record<string, string> {
  const filled = Object.entries(gateway.headers).map(([name, value]) => [
    name.toLowerCase(),
    fillTemplate(value, 'header', values),
  ]);
  return Object.fromEntries(filled);
}

/** Asks the address that tells how the account stands or, where there is none, only whether somebody is there. */
async function look(gateway: SmsGateway, signal: AbortSignal): Promise<ChannelCheck> {
  const nobody = { to: '', digits: '', text: '', id: 'check', from: gateway.from };
  const answer = await fetch(gateway.checkUrl ?? new URL(fillTemplate(gateway.url, 'url', nobody)).origin, {
    method: gateway.checkUrl === null ? 'HEAD' : 'GET',
    headers: gateway.checkUrl === null ? {} : filledHeaders(gateway, nobody),
    redirect: 'manual',
    signal,
  });
  await answer.body?.cancel();
  if (gateway.checkUrl === null)
    return { ready: true, detail: 'gateway answers; its account is not looked at' };
  if (answer.ok) return { ready: true, detail: `gateway answers and knows us (${answer.status})` };
  const isOurs = accountStatuses.includes(answer.status);
  return {
    ready: false,
    detail: `gateway answered ${answer.status}`,
    ...(isOurs ? { tellOwner: true } : {}),
  };
}

function judge(gateway: SmsGateway, answer: Response, body: string, nowMs: number): SendOutcome {
  const { status } = answer;
  const { success, refusal } = gateway;
  const found = (texts: readonly string[]) => texts.find((text) => body.includes(text));
  const detail = `gateway answered ${status}`;
  const account = found(refusal.account);
  if (account !== undefined) return { kind: 'retry', detail: `${detail} "${account}"`, tellOwner: true };
  const refused = found(refusal.message);
  if (refused !== undefined) return { kind: 'gave-up', detail: `${detail} "${refused}"` };
  if (status >= success.statusFrom && status <= success.statusTo) return taken(gateway, status, body);
  if (isPassing(status))
    return { kind: 'retry', detail, ...notBefore(answer.headers.get('retry-after'), nowMs) };
  // Waits for whoever holds the account: once the key or the credit is right, the message still goes.
  if (accountStatuses.includes(status))
    return { kind: 'retry', detail: `${detail}: it refuses our account`, tellOwner: true };
  if (status < 400)
    return { kind: 'gave-up', detail: `${detail}: its address is not right`, tellOwner: true };
  return { kind: 'gave-up', detail: `${detail}: it refuses this message` };
}

function taken({ success }: SmsGateway, status: number, body: string): SendOutcome {
  const { bodyContains, referencePointer } = success;
  if (bodyContains !== null && !body.includes(bodyContains)) {
    return { kind: 'retry', detail: `gateway answered ${status} without "${bodyContains}"` };
  }
  const reference = referencePointer === null ? null : referenceAt(body, referencePointer);
  return { kind: 'sent', detail: `gateway took it (${status})`, reference };
}

function referenceAt(body: string, pointer: string): string | null {
  try {
    const value = valueAtPointer(JSON.parse(body), pointer);
    return typeof value === 'string' || typeof value === 'number' ? String(value) : null;
  } catch {
    return null;
  }
}

async function readLimited(answer: Response): Promise<string> {
  if (!answer.body) return '';
  const decoder = new TextDecoder();
  let text = '';
  for await (const piece of answer.body) {
    text += decoder.decode(piece as Uint8Array, { stream: true });
    if (text.length > answerLimitBytes) break;
  }
  return text;
}
