import { fromBase64Url } from './base64url.ts';
import { definitionByLabel, type LabelKind, type RawField, type SenmlRecord } from './record.ts';
import { SenmlError, type SenmlErrorCode, shown } from './senmlError.ts';

const allowedByKind: Readonly<Record<LabelKind, string>> = {
  number: 'a finite number',
  string: 'a text',
  boolean: 'true or false',
  bytes: 'bytes (in JSON: URL-safe base64 without padding)',
  version: 'a whole number of 1 or more',
  duration: 'a finite number of seconds, 0 or more',
};

/**
 * One record with every known field checked for type. Unknown labels are ignored, except that one ending in `_` must be
 * understood (RFC 8428 section 4.4) and so is refused. Throws SenmlError.
 */
export function checkRecord(fields: readonly RawField[], recordIndex: number): SenmlRecord {
  const record: Record<string, unknown> = {};
  for (const [label, value] of fields) {
    const definition = definitionByLabel.get(label);
    if (definition !== undefined) record[label] = checkedValue(definition.kind, value, label, recordIndex);
    else if (label.endsWith('_')) throw mustUnderstand(label, recordIndex);
  }
  return record;
}

function checkedValue(kind: LabelKind, value: unknown, field: string, recordIndex: number): unknown {
  // 64-bit integers of CBOR arrive as bigint; SenML numbers are IEEE doubles (RFC 8428 section 5).
  const plain = typeof value === 'bigint' && kind !== 'bytes' ? Number(value) : value;
  const checked = kind === 'bytes' ? bytesOf(plain) : plain;
  const problem = checked === null ? 'wrong-type' : problemOf(kind, checked);
  if (problem === null) return checked;
  const allowed = allowedByKind[kind];
  throw new SenmlError({ code: problem, recordIndex, field, value: shown(value), allowed });
}

function problemOf(kind: LabelKind, value: unknown): SenmlErrorCode | null {
  if (kind === 'string') return isCleanText(value) ? null : 'wrong-type';
  if (kind === 'boolean') return typeof value === 'boolean' ? null : 'wrong-type';
  if (kind === 'bytes') return value instanceof Uint8Array ? null : 'wrong-type';
  if (typeof value !== 'number') return 'wrong-type';
  if (!Number.isFinite(value)) return 'not-finite';
  if (kind === 'duration' && value < 0) return 'wrong-type';
  return kind === 'version' && !(Number.isSafeInteger(value) && value >= 1) ? 'version' : null;
}

/** A replacement character is what the CBOR library leaves of bytes that are not UTF-8. */
function isCleanText(value: unknown): boolean {
  return typeof value === 'string' && !value.includes('\uFFFD');
}

function bytesOf(value: unknown): Uint8Array | null {
  if (typeof value === 'string') return fromBase64Url(value);
  return value instanceof Uint8Array ? value : null;
}

function mustUnderstand(field: string, recordIndex: number): SenmlError {
  const allowed =
    'labels of RFC 8428; one that ends in "_" must be understood by the receiver and this is not';
  return new SenmlError({ code: 'unknown-label', recordIndex, field, value: null, allowed });
}
