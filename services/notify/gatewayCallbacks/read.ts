import { valueAtPointer } from '../../../shared/readings/jsonPointer.ts';
import type { DeliveryReport, InboundText } from '../messageChannel.ts';
import type { CallbackRequest } from '../port.ts';
import type { GatewayCallbacks } from './settings.ts';

/** A call that does not hold what the configuration says it holds. */
export class CallbackError extends Error {
  override readonly name = 'CallbackError';
}

type Source = (field: string) => string | null;

/**
 * Delivery reports of one call.
 * @throws CallbackError naming the field that is missing.
 */
export function readReports(
  request: CallbackRequest,
  settings: NonNullable<GatewayCallbacks['deliveryReport']>,
  nowMs: number,
): DeliveryReport[] {
  const words = (list: readonly string[]) => new Set(list.map((word) => word.toLowerCase()));
  const [delivered, failed] = [words(settings.delivered), words(settings.failed)];
  return sources(request, settings.from, settings.items).map((source) => {
    const detail = needed(source, settings.state);
    const word = detail.toLowerCase();
    const state = delivered.has(word) ? 'delivered' : failed.has(word) ? 'failed' : 'underway';
    return { reference: needed(source, settings.reference), state, detail: detail.slice(0, 80), atMs: nowMs };
  });
}

/**
 * Texts of one call, as people sent them.
 * @throws CallbackError naming the field that is missing.
 */
export function readTexts(
  request: CallbackRequest,
  settings: NonNullable<GatewayCallbacks['inbound']>,
  nowMs: number,
): InboundText[] {
  return sources(request, settings.from, settings.items).map((source) => {
    const sender = needed(source, settings.sender).trim();
    return {
      from: /^\d{8,}$/.test(sender) ? settings.senderPrefix + sender : sender,
      // An empty text is a text.
      text: source(settings.text) ?? missing(settings.text),
      receivedMs: nowMs,
      reference: settings.reference === null ? null : source(settings.reference),
    };
  });
}

function sources(request: CallbackRequest, from: 'json' | 'form' | 'query', items: string | null): Source[] {
  if (from === 'query') return [named(new URL(request.url).searchParams)];
  const text = new TextDecoder().decode(request.body);
  if (from === 'form') return [named(new URLSearchParams(text))];
  const document = parsed(text);
  if (items === null) return [pointed(document)];
  const list = valueAtPointer(document, items);
  if (!Array.isArray(list)) throw new CallbackError(`there is no list at "${items}"`);
  return list.map(pointed);
}

function named(fields: URLSearchParams): Source {
  return (field) => fields.get(field);
}

function pointed(document: unknown): Source {
  return (field) => {
    const value = valueAtPointer(document, field.startsWith('/') ? field : `/${field}`);
    return typeof value === 'string' || typeof value === 'number' ? String(value) : null;
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new CallbackError('the body is not JSON');
  }
}

function needed(source: Source, field: string): string {
  return source(field) || missing(field);
}

function missing(field: string): never {
  throw new CallbackError(`there is no "${field}"`);
}
