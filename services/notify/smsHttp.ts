import type { Message } from '../records/port.ts';
import { fillTemplate } from './fillTemplate.ts';
import type { MessageChannel, SendOutcome } from './messageChannel.ts';
import type { SmsGateway } from './smsGateway.ts';

const contentTypes = {
  json: 'application/json',
  form: 'application/x-www-form-urlencoded',
  text: 'text/plain; charset=utf-8',
} as const;

/** Longest answer that is looked at; a gateway's page of HTML tells nothing more. */
const answerLimitBytes = 16_384;

/**
 * Texts through any HTTP gateway described by configuration. The message's idempotency key goes along as `{{id}}` and in
 * an `Idempotency-Key` header, so that a gateway that honours it sends a repeated attempt only once.
 */
export function createSmsHttp(gateway: SmsGateway, nowMs: () => number): MessageChannel {
  return {
    kind: 'sms-http',
    async send(message) {
      let answer: Response;
      try {
        answer = await request(gateway, message);
      } catch (error) {
        return { kind: 'retry', detail: noAnswer(error, gateway.timeoutSeconds) };
      }
      try {
        return judge(gateway, answer, await readLimited(answer), nowMs());
      } catch (error) {
        // The gateway may have taken it: its status said so, only the body broke off.
        return { kind: 'retry', detail: `answer broke off: ${noAnswer(error, gateway.timeoutSeconds)}` };
      }
    },
  };
}

function request(gateway: SmsGateway, message: Message): Promise<Response> {
  const values = { to: message.address, text: message.text, id: message.idempotencyKey, from: gateway.from };
  const headers = Object.fromEntries(
    Object.entries(gateway.headers).map(([name, value]) => [
      name.toLowerCase(),
      fillTemplate(value, 'header', values),
    ]),
  );
  const { body } = gateway;
  const sendsBody = body !== null && gateway.method !== 'GET';
  return fetch(fillTemplate(gateway.url, 'url', values), {
    method: gateway.method,
    headers: {
      ...(sendsBody ? { 'content-type': contentTypes[body.kind] } : {}),
      'idempotency-key': message.idempotencyKey,
      ...headers,
    },
    ...(sendsBody ? { body: fillTemplate(body.template, body.kind, values) } : {}),
    // A redirect would carry phone numbers and keys to an address nobody configured.
    redirect: 'manual',
    signal: AbortSignal.timeout(gateway.timeoutSeconds * 1000),
  });
}

function judge(gateway: SmsGateway, answer: Response, body: string, nowMs: number): SendOutcome {
  const { statusFrom, statusTo, bodyContains, referencePointer } = gateway.success;
  if (answer.status >= statusFrom && answer.status <= statusTo) {
    if (bodyContains !== null && !body.includes(bodyContains)) {
      return { kind: 'retry', detail: `gateway answered ${answer.status} without "${bodyContains}"` };
    }
    const reference = referencePointer === null ? null : valueAt(body, referencePointer);
    return { kind: 'sent', detail: `gateway took it (${answer.status})`, reference };
  }
  const detail = `gateway answered ${answer.status}`;
  if (answer.status >= 500 || [408, 425, 429].includes(answer.status)) {
    const notBeforeMs = retryAfterMs(answer.headers.get('retry-after'), nowMs);
    return { kind: 'retry', detail, ...(notBeforeMs === null ? {} : { notBeforeMs }) };
  }
  return { kind: 'gave-up', detail: `${detail}: it refuses this message` };
}

/** `Retry-After` as an instant: seconds or an HTTP date (RFC 9110 section 10.2.3); at most a day is believed. */
function retryAfterMs(header: string | null, nowMs: number): number | null {
  if (header === null) return null;
  const wait = /^\d+$/.test(header.trim()) ? Number(header) * 1000 : Date.parse(header) - nowMs;
  return Number.isFinite(wait) && wait > 0 ? nowMs + Math.min(wait, 86_400_000) : null;
}

/** Value at a JSON Pointer (RFC 6901) as text; null when it is not there. */
function valueAt(body: string, pointer: string): string | null {
  try {
    const steps = pointer
      .split('/')
      .slice(1)
      .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
    const value = steps.reduce<unknown>(
      (at, step) => (at as Record<string, unknown> | null)?.[step],
      JSON.parse(body),
    );
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

function noAnswer(error: unknown, timeoutSeconds: number): string {
  const { name, cause } = error as { name?: string; cause?: { code?: string } };
  if (name === 'TimeoutError') return `gateway did not answer within ${timeoutSeconds} s`;
  return `gateway cannot be reached${cause?.code ? ` (${cause.code})` : ''}`;
}
