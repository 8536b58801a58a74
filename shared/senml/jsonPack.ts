import { duplicateMember, hasDuplicateMember } from './duplicateMember.ts';
import type { RawField } from './record.ts';
import { SenmlError, shown } from './senmlError.ts';
import { textFromUtf8 } from './textBytes.ts';

/**
 * The fields of each record of a SenML JSON pack (RFC 8428 section 5), types not yet checked.
 *
 * Stricter than `JSON.parse` in two ways: bytes must be UTF-8, and a member name may not come twice in one object
 * (JSON leaves its meaning undefined, so two readers could store two different temperatures).
 * Throws SenmlError.
 */
export function readJsonPack(payload: Uint8Array): RawField[][] {
  const text = textFromUtf8(payload);
  if (text === null) throw packError('not-utf8', `${payload.length} bytes`, 'JSON in UTF-8 only');
  const pack = parsed(text);
  if (!Array.isArray(pack)) throw packError('not-senml', shown(pack), 'one JSON array of records');
  if (hasDuplicateMember(text, pack)) throw duplicateError(text);
  return pack.map(fieldsOf);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const allowed = 'complete JSON (no NaN, no Infinity, no trailing comma)';
    throw packError('malformed-json', (error as Error).message, allowed);
  }
}

function fieldsOf(record: unknown, recordIndex: number): RawField[] {
  if (typeof record === 'object' && record !== null && !Array.isArray(record)) return Object.entries(record);
  const allowed = 'a JSON object';
  throw new SenmlError({ code: 'not-a-record', recordIndex, field: null, value: shown(record), allowed });
}

function duplicateError(text: string): SenmlError {
  const found = duplicateMember(text);
  return new SenmlError({
    code: 'duplicate-label',
    recordIndex: found?.recordIndex ?? null,
    field: found?.name ?? null,
    value: 'the same name twice',
    allowed: 'each member name once in a record',
  });
}

function packError(code: SenmlError['code'], value: string, allowed: string): SenmlError {
  return new SenmlError({ code, recordIndex: null, field: null, value, allowed });
}
