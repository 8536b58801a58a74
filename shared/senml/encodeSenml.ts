import { encode } from 'cborg';
import { toBase64Url } from './base64url.ts';
import { checkRecord } from './checkRecord.ts';
import { definitionByLabel, type SenmlRecord } from './record.ts';
import { utf8FromText } from './textBytes.ts';

/**
 * A pack as SenML JSON in UTF-8 (RFC 8428 section 5); fields keep the order they have in each record.
 * Throws SenmlError for a field of the wrong type, NaN or Infinity: they have no JSON form.
 */
export function encodeSenmlJson(records: readonly SenmlRecord[]): Uint8Array {
  const plain = records.map((record, index) =>
    Object.fromEntries(
      checkedFields(record, index).map(([label, value]) => [
        label,
        value instanceof Uint8Array ? toBase64Url(value) : value,
      ]),
    ),
  );
  return utf8FromText(JSON.stringify(plain));
}

/** A pack as SenML CBOR (RFC 8428 section 6): integer keys, each number in its shortest exact form. Throws SenmlError. */
export function encodeSenmlCbor(records: readonly SenmlRecord[]): Uint8Array {
  const maps = records.map(
    (record, index) =>
      new Map(
        checkedFields(record, index).map(([label, value]) => [definitionByLabel.get(label)!.cborKey, value]),
      ),
  );
  // Keep the order given: the default sorting serves byte-for-byte comparison, which SenML does not ask for.
  return encode(maps, { mapSorter: () => 0 });
}

function checkedFields(record: SenmlRecord, index: number): [string, unknown][] {
  const present = Object.entries(record).filter(([, value]) => value !== undefined);
  return Object.entries(checkRecord(present, index));
}
