import { topicMatches } from '../messages/topicFilter.ts';
import { isSenmlName } from '../senml/senmlName.ts';
import { textFromUtf8 } from '../senml/textBytes.ts';
import { valueAtPointer } from './jsonPointer.ts';
import { MappingError } from './mappingError.ts';
import { mappedTimeMs } from './mappingTime.ts';

export { MappingError } from './mappingError.ts';

/** One value of a message and the channel it belongs to. */
export interface ChannelMapping {
  /** JSON Pointer to the value; null when the whole payload is one number written as text. */
  readonly pointer: string | null;
  readonly channel: string;
  /** SenML unit the sender means, e.g. `Cel`, `/100`. */
  readonly unit: string;
}

/** How to read the messages of a sender that does not speak SenML: which topics, whose they are, what is where. */
export interface MappingRule {
  readonly topicFilter: string;
  /**
   * Device name with placeholders: `{2}` is the second level of the topic, `{/device/id}` the value at a JSON Pointer.
   * `urn:dev:mac:` and `urn:dev:ow:` names are put in lower case, as they must be.
   */
  readonly probe: string;
  /** JSON Pointer to the time of measurement; null when there is none and the time of arrival counts. */
  readonly timePointer: string | null;
  readonly channels: readonly ChannelMapping[];
}

/** A value taken from a message, in the sender's unit. */
export interface MappedRecord {
  readonly probe: string;
  readonly channel: string;
  /** Full name as SenML would give it: probe, `_`, channel. */
  readonly name: string;
  readonly unit: string;
  readonly value: number;
  /** Null: the message does not say; the time of arrival counts. */
  readonly timeMs: number | null;
}

/**
 * The values a rule finds in a message. A channel whose pointer leads nowhere is left out, since senders do not put
 * every sensor in every message; finding none at all is an error. Throws MappingError naming field, value and what is
 * allowed.
 */
export function applyMapping(rule: MappingRule, topic: string, payload: Uint8Array): MappedRecord[] {
  if (!topicMatches(rule.topicFilter, topic)) {
    throw new MappingError('topic', topic, `topics that match ${rule.topicFilter}`);
  }
  const document = documentOf(rule, payload);
  const probe = probeOf(rule.probe, topic, document);
  const timeMs = rule.timePointer === null ? null : mappedTimeMs(document, rule.timePointer);
  const records = rule.channels.flatMap(({ pointer, channel, unit }) => {
    const found = pointer === null ? document : valueAtPointer(document, pointer);
    if (found === undefined) return [];
    const value = numberOf(found, pointer ?? 'payload');
    return [{ probe, channel, name: `${probe}_${channel}`, unit, value, timeMs }];
  });
  if (records.length > 0) return records;
  const pointers = rule.channels.map(({ pointer }) => pointer).join(', ');
  throw new MappingError('payload', 'none of the mapped values', `a number at one or more of ${pointers}`);
}

/** The parsed JSON, or the bare text when no part of the rule looks inside the payload. */
function documentOf(rule: MappingRule, payload: Uint8Array): unknown {
  const text = textFromUtf8(payload);
  if (text === null) throw new MappingError('payload', `${payload.length} bytes`, 'text in UTF-8');
  const isBareNumber = rule.channels.every(({ pointer }) => pointer === null);
  if (isBareNumber && rule.timePointer === null && !rule.probe.includes('{/')) return text;
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new MappingError('payload', (error as Error).message, 'complete JSON');
  }
}

function probeOf(template: string, topic: string, document: unknown): string {
  const levels = topic.split('/');
  const probe = template.replaceAll(/\{([^}]*)\}/g, (_, place: string) => {
    const found = place.startsWith('/') ? valueAtPointer(document, place) : levels[Number(place) - 1];
    if (typeof found === 'number' || (typeof found === 'string' && found !== '')) return String(found);
    throw new MappingError(`probe {${place}}`, String(found), 'a text or number at that place');
  });
  if (!isSenmlName(probe)) {
    throw new MappingError('probe', `"${probe}"`, 'letters, digits and - : . / _, first a letter or digit');
  }
  return /^urn:dev:(?:mac|ow):/i.test(probe) ? probe.toLowerCase() : probe;
}

function numberOf(found: unknown, field: string): number {
  const isNumericText =
    typeof found === 'string' && /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/.test(found);
  const value = isNumericText ? Number(found) : found;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  throw new MappingError(
    field,
    JSON.stringify(found).slice(0, 80),
    'a finite number, or one written as text',
  );
}
