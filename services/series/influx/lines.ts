import { Point } from '@influxdata/influxdb-client';
import { type Quality, type QualityReason, qualityReasons } from '../../../shared/readings/reading.ts';
import type { StoredReading } from '../port.ts';
import type { InfluxRow } from './influxQl.ts';

/** The one measurement readings are kept under. */
export const measurement = 'reading';

/** Fields of a reading in the order they are asked for. */
export const fields = 'raw_value, quality, reason, sequence';

/**
 * A reading as a line of line protocol, time in ms.
 *
 * Only the channel is a tag. A point is known by measurement, tags and time, so the same reading written twice is one
 * point; were quality a tag, a reading could stand there twice. Words, not codes: whoever looks with their own tools
 * reads `quality="suspect",reason="outlier"`.
 */
export function lineOf(reading: StoredReading): string {
  const point = new Point(measurement)
    .tag('channel', reading.channel)
    .floatField('value', reading.value)
    .floatField('raw_value', reading.rawValue)
    .stringField('quality', reading.quality)
    .intField('sequence', reading.sequence)
    .timestamp(reading.timeMs);
  if (reading.reason !== null) point.stringField('reason', reading.reason);
  return point.toLineProtocol()!;
}

/** A row as a reading again; `valueColumn` is where its value stands (selectors name the column after themselves). */
export function readingOf(channel: string, row: InfluxRow, valueColumn = 'value'): StoredReading {
  return {
    channel,
    timeMs: Number(row.time),
    value: Number(row[valueColumn]),
    rawValue: Number(row.raw_value),
    quality: qualityOf(row.quality),
    reason: reasonOf(row.reason),
    sequence: Number(row.sequence),
  };
}

/** What somebody else wrote in words we do not know is bad: a pile must not be judged by it. */
function qualityOf(word: unknown): Quality {
  return word === 'good' || word === 'suspect' ? word : 'bad';
}

function reasonOf(word: unknown): QualityReason | null {
  return qualityReasons.find((reason) => reason === word) ?? null;
}
