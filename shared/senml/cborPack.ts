import { decode } from 'cborg';
import { labelByCborKey, type RawField } from './record.ts';
import { SenmlError, shown } from './senmlError.ts';

/** Decimal fraction (RFC 8949 section 3.4.4): [exponent, mantissa] means mantissa x 10^exponent. */
const decimalFractionTag = 4;
/** "This is CBOR" prefix some encoders write (RFC 8949 section 3.4.6); it means nothing more. */
const selfDescribedTag = 55799;

/**
 * The fields of each record of a SenML CBOR pack (RFC 8428 section 6), types not yet checked. Arrays and maps of
 * indefinite length are accepted, strings of indefinite length are not (the RFC forbids them). Besides the integer keys
 * the text form of a label is accepted, because the plainest CBOR libraries on small boards write maps with text keys.
 * Throws SenmlError.
 */
export function readCborPack(payload: Uint8Array): RawField[][] {
  const pack = decoded(payload);
  if (!Array.isArray(pack)) throw packError('not-senml', shown(pack), 'one CBOR array of records');
  return pack.map(fieldsOf);
}

function decoded(payload: Uint8Array): unknown {
  try {
    return decode(payload, {
      useMaps: true,
      rejectDuplicateMapKeys: true,
      allowUndefined: false,
      tags: {
        [decimalFractionTag]: (content) => decimalFraction(content()),
        [selfDescribedTag]: (content) => content(),
      },
    });
  } catch (error) {
    // A stack overflow is told apart by the caller; everything else is the library refusing the bytes.
    if (error instanceof RangeError) throw error;
    const reason = (error as Error).message.replace(/^CBOR decode error: /, '');
    throw packError('malformed-cbor', reason, 'one complete CBOR array of maps, cut nowhere');
  }
}

function decimalFraction(content: unknown): number {
  const [exponent, mantissa] = Array.isArray(content) && content.length === 2 ? content : [];
  if (!Number.isSafeInteger(exponent) || !(Number.isSafeInteger(mantissa) || typeof mantissa === 'bigint')) {
    throw new Error('a decimal fraction (tag 4) that is not [integer exponent, integer mantissa]');
  }
  // Through the decimal notation, so that 2731 x 10^-2 becomes the very double that 27.31 is.
  return Number(`${mantissa}e${exponent}`);
}

function fieldsOf(record: unknown, recordIndex: number): RawField[] {
  if (record instanceof Map) {
    const fields = [...record].map(([key, value]): RawField => [labelOf(key, recordIndex), value]);
    refuseTwoSpellings(fields, recordIndex);
    return fields;
  }
  const allowed = 'a CBOR map';
  throw new SenmlError({ code: 'not-a-record', recordIndex, field: null, value: shown(record), allowed });
}

function labelOf(key: unknown, recordIndex: number): string {
  const label = typeof key === 'string' ? key : labelByCborKey.get(key as number);
  if (label !== undefined) return label;
  const allowed = 'integer keys -6 to 8 of RFC 8428 table 4 (the table is closed), or text keys';
  throw new SenmlError({ code: 'unknown-label', recordIndex, field: shown(key), value: null, allowed });
}

/** Key 0 and key "n" are the same label, which the CBOR library cannot know. */
function refuseTwoSpellings(fields: readonly RawField[], recordIndex: number): void {
  if (new Set(fields.map(([label]) => label)).size === fields.length) return;
  const field = fields.find(([label], index) => fields.findIndex(([other]) => other === label) !== index)![0];
  const allowed = 'each label once in a record';
  throw new SenmlError({
    code: 'duplicate-label',
    recordIndex,
    field,
    value: 'the same label twice',
    allowed,
  });
}

function packError(code: SenmlError['code'], value: string, allowed: string): SenmlError {
  return new SenmlError({ code, recordIndex: null, field: null, value, allowed });
}
