import type { Reading } from '../../../shared/readings/reading.ts';
import type { StoredReading } from '../port.ts';
import { qualityCode, qualityOf, reasonCode, reasonOf } from './codes.ts';

/**
 * Readings as columns. Between threads everything is copied by structured clone, which for 10,000 objects costs more than
 * storing them; typed arrays are handed over instead, without a copy.
 */
export interface ReadingColumns {
  /** Channel names in order of first appearance; `channel` holds indexes into it. */
  readonly names: string[];
  readonly channel: Uint32Array;
  readonly timeMs: Float64Array;
  readonly rawValue: Float64Array;
  readonly value: Float64Array;
  readonly quality: Uint8Array;
  readonly reason: Uint8Array;
  readonly sequence: Float64Array;
}

/** Empty columns with room for `length` readings. */
export function makeColumns(length: number): ReadingColumns {
  return {
    names: [],
    channel: new Uint32Array(length),
    timeMs: new Float64Array(length),
    rawValue: new Float64Array(length),
    value: new Float64Array(length),
    quality: new Uint8Array(length),
    reason: new Uint8Array(length),
    sequence: new Float64Array(length),
  };
}

/** Packs groups of readings one after another; sequences are left 0, the store gives them out. */
export function packReadings(groups: readonly (readonly Reading[])[]): ReadingColumns {
  const columns = makeColumns(groups.reduce((sum, group) => sum + group.length, 0));
  const indexByName = new Map<string, number>();
  let row = 0;
  for (const group of groups) {
    for (const reading of group) {
      columns.channel[row] = internName(columns.names, indexByName, reading.channel);
      columns.timeMs[row] = reading.timeMs;
      columns.rawValue[row] = reading.rawValue;
      columns.value[row] = reading.value;
      columns.quality[row] = qualityCode(reading.quality);
      columns.reason[row] = reasonCode(reading.reason);
      row++;
    }
  }
  return columns;
}

function internName(names: string[], indexByName: Map<string, number>, name: string): number {
  const known = indexByName.get(name);
  if (known !== undefined) return known;
  indexByName.set(name, names.length);
  names.push(name);
  return names.length - 1;
}

/** The readings of columns, in their order. */
export function unpackReadings(columns: ReadingColumns): StoredReading[] {
  return Array.from(columns.timeMs, (timeMs, row) => ({
    channel: columns.names[columns.channel[row]!]!,
    timeMs,
    rawValue: columns.rawValue[row]!,
    value: columns.value[row]!,
    quality: qualityOf(columns.quality[row]!),
    reason: reasonOf(columns.reason[row]!),
    sequence: columns.sequence[row]!,
  }));
}

/** The memory a message may hand over instead of copying. */
export function transferables(columns: ReadingColumns): ArrayBuffer[] {
  const { channel, timeMs, rawValue, value, quality, reason, sequence } = columns;
  return [channel, timeMs, rawValue, value, quality, reason, sequence].map(
    (column) => column.buffer as ArrayBuffer,
  );
}
