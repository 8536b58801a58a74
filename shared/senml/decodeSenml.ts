import { readCborPack } from './cborPack.ts';
import { checkRecord } from './checkRecord.ts';
import { readJsonPack } from './jsonPack.ts';
import type { RawField, SenmlRecord } from './record.ts';
import { resolve } from './resolve.ts';
import type { ResolvedRecord } from './resolvedRecord.ts';
import { SenmlError } from './senmlError.ts';

export type { ResolvedRecord } from './resolvedRecord.ts';
export { SenmlError } from './senmlError.ts';

export type SenmlFormat = 'json' | 'cbor';

export interface DecodeOptions {
  /** What relative times count from: when the pack arrived. */
  readonly nowMs: number;
  /** Told by the first byte when not given. */
  readonly format?: SenmlFormat;
  /** Most records in a pack; a day of five channels each minute is 7200. */
  readonly maxRecords?: number;
  /** Most bytes in a pack. */
  readonly maxBytes?: number;
}

export const defaultMaxRecords = 10_000;
export const defaultMaxBytes = 1024 * 1024;

/**
 * The measurements of a SenML pack in JSON or CBOR (RFC 8428, RFC 9100, RFC 8798), resolved and in time order. One
 * fault refuses the whole pack: half a pack stored would look like a probe that lost a sensor. Throws SenmlError.
 */
export function decodeSenml(payload: Uint8Array, options: DecodeOptions): ResolvedRecord[] {
  return resolve(readSenmlRecords(payload, options), { nowMs: options.nowMs });
}

/** The records of a pack as sent, types checked, not resolved. Throws SenmlError. */
export function readSenmlRecords(
  payload: Uint8Array,
  options: Omit<DecodeOptions, 'nowMs'> = {},
): SenmlRecord[] {
  const maxBytes = options.maxBytes ?? defaultMaxBytes;
  const maxRecords = options.maxRecords ?? defaultMaxRecords;
  if (payload.length > maxBytes) {
    throw packError('too-large', `${payload.length} bytes`, `at most ${maxBytes} bytes`);
  }
  const pack = readPack(payload, options.format ?? formatOf(payload));
  if (pack.length > maxRecords) {
    throw packError('too-many-records', `${pack.length} records`, `at most ${maxRecords} records`);
  }
  return pack.map(checkRecord);
}

function readPack(payload: Uint8Array, format: SenmlFormat): RawField[][] {
  try {
    return format === 'json' ? readJsonPack(payload) : readCborPack(payload);
  } catch (error) {
    // Thousands of brackets within brackets exhaust the stack of any recursive reader.
    if (!(error instanceof RangeError)) throw error;
    throw packError('nested-too-deep', 'arrays within arrays', 'an array of flat records');
  }
}

/**
 * JSON or CBOR, told by the first byte: JSON white space, `[` or `{`, against a CBOR array (major type 4) or the
 * "this is CBOR" tag. The two sets do not overlap for anything that can be a pack. Throws SenmlError.
 */
export function formatOf(payload: Uint8Array): SenmlFormat {
  const first = payload[0];
  if (first === undefined) throw packError('not-senml', 'an empty payload', 'a SenML pack in JSON or CBOR');
  if ([0x09, 0x0a, 0x0d, 0x20, 0x5b, 0x7b].includes(first)) return 'json';
  if ((first >= 0x80 && first <= 0x9f) || first === 0xd9) return 'cbor';
  const value = `first byte ${first.toString(16).padStart(2, '0')}`;
  throw packError('not-senml', value, 'a JSON array (first byte 5b) or a CBOR array (first byte 80 to 9f)');
}

function packError(code: SenmlError['code'], value: string, allowed: string): SenmlError {
  return new SenmlError({ code, recordIndex: null, field: null, value, allowed });
}
