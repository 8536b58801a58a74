/** What can be wrong with a SenML pack; the code is stable, the message is for a person. */
export type SenmlErrorCode =
  | 'too-large'
  | 'too-many-records'
  | 'not-senml'
  | 'not-utf8'
  | 'malformed-json'
  | 'malformed-cbor'
  | 'nested-too-deep'
  | 'not-a-record'
  | 'duplicate-label'
  | 'unknown-label'
  | 'wrong-type'
  | 'not-finite'
  | 'version'
  | 'name'
  | 'unit'
  | 'time'
  | 'no-value'
  | 'several-values';

export interface SenmlErrorDetail {
  readonly code: SenmlErrorCode;
  /** Index of the record in the pack as sent; null when the pack as a whole is at fault. */
  readonly recordIndex: number | null;
  /** SenML label at fault, e.g. `v`; null when no single field is. */
  readonly field: string | null;
  /** What was found, cut to a printable length. */
  readonly value: string | null;
  readonly allowed: string;
}

/** A pack that breaks RFC 8428, RFC 9100 or our limits: says where, what was found and what is allowed. */
export class SenmlError extends Error {
  override readonly name = 'SenmlError';
  readonly code: SenmlErrorCode;
  readonly recordIndex: number | null;
  readonly field: string | null;
  readonly value: string | null;
  readonly allowed: string;

  constructor(detail: SenmlErrorDetail) {
    super(messageOf(detail));
    this.code = detail.code;
    this.recordIndex = detail.recordIndex;
    this.field = detail.field;
    this.value = detail.value;
    this.allowed = detail.allowed;
  }
}

function messageOf({ recordIndex, field, value, allowed }: SenmlErrorDetail): string {
  const where = [
    recordIndex === null ? 'SenML pack' : `SenML record ${recordIndex}`,
    ...(field === null ? [] : [`field "${field}"`]),
  ].join(', ');
  return `${where}: ${value === null ? '' : `got ${value}; `}allowed: ${allowed}`;
}

const longestShown = 80;

/** A short printable form of any value, for the `value` of an error. Never throws. */
export function shown(value: unknown): string {
  const text = plainForm(value);
  return text.length <= longestShown ? text : `${text.slice(0, longestShown)}... (${text.length} characters)`;
}

function plainForm(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'object' && value !== null) {
    if (Array.isArray(value)) return `an array of ${value.length}`;
    return value instanceof Uint8Array ? `${value.length} bytes` : 'an object';
  }
  return String(value);
}
