import { readCborPack } from '../../shared/senml/cborPack.ts';
import { checkRecord } from '../../shared/senml/checkRecord.ts';
import { decodeSenml, defaultMaxRecords, formatOf } from '../../shared/senml/decodeSenml.ts';
import { readJsonPack } from '../../shared/senml/jsonPack.ts';
import type { RawField, SenmlRecord } from '../../shared/senml/record.ts';
import { resolve } from '../../shared/senml/resolve.ts';
import type { ResolvedRecord } from '../../shared/senml/resolvedRecord.ts';
import { SenmlError } from '../../shared/senml/senmlError.ts';

/** A pack with more faults than this is broken as a whole. */
const mostRefused = 20;
const baseLabels: ReadonlySet<string> = new Set(['bver', 'bn', 'bt', 'bu', 'bv', 'bs']);

export interface DecodedPack {
  readonly records: readonly ResolvedRecord[];
  /** One reason for each record that could not be used. */
  readonly refused: readonly string[];
}

/**
 * The measurements of a SenML pack, without those that are wrong in themselves: one sensor that sends NaN must not take
 * the readings of its neighbours with it. The base fields of a refused record stay in force, as the records after it
 * rely on them. Throws SenmlError when the pack as a whole cannot be read.
 */
export function decodePack(payload: Uint8Array, nowMs: number): DecodedPack {
  try {
    return { records: decodeSenml(payload, { nowMs }), refused: [] };
  } catch (error) {
    if (!isRecordFault(error)) throw error;
    return decodeAroundFaults(payload, nowMs);
  }
}

function decodeAroundFaults(payload: Uint8Array, nowMs: number): DecodedPack {
  const raw = formatOf(payload) === 'json' ? readJsonPack(payload) : readCborPack(payload);
  if (raw.length > defaultMaxRecords) return { records: decodeSenml(payload, { nowMs }), refused: [] };
  const refused: string[] = [];
  const replaceWithBase = (error: unknown, index: number): SenmlRecord => {
    if (refused.length >= mostRefused) throw error;
    refused.push((error as Error).message);
    return checkRecord(baseFieldsOf(raw[index]!), index);
  };
  const records = raw.map((fields, index) => {
    try {
      return checkRecord(fields, index);
    } catch (error) {
      return replaceWithBase(error, index);
    }
  });
  return { records: resolveAroundFaults(records, nowMs, replaceWithBase), refused };
}

/** Resolving stops at the first faulty record; it is cut down to its base fields and the pack resolved again. */
function resolveAroundFaults(
  records: SenmlRecord[],
  nowMs: number,
  replaceWithBase: (error: unknown, index: number) => SenmlRecord,
): ResolvedRecord[] {
  for (;;) {
    try {
      return resolve(records, { nowMs });
    } catch (error) {
      if (!isRecordFault(error)) throw error;
      records[error.recordIndex] = replaceWithBase(error, error.recordIndex);
    }
  }
}

function baseFieldsOf(fields: readonly RawField[]): RawField[] {
  return fields.filter(([label]) => baseLabels.has(label));
}

/** A fault of one record's own fields. A wrong version, base field or record form concerns the whole pack. */
function isRecordFault(error: unknown): error is SenmlError & { readonly recordIndex: number } {
  if (!(error instanceof SenmlError) || error.recordIndex === null) return false;
  const isOfWholePack = ['version', 'not-a-record', 'duplicate-label', 'unknown-label'].includes(error.code);
  return !isOfWholePack && !(error.field !== null && baseLabels.has(error.field));
}
