import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import { type QualityReason, qualityReasons, type Reading } from '../../../shared/readings/reading.ts';
import type { Rollup } from '../../series/port.ts';

/** RFC 4180: comma, CRLF, a header. No field of ours holds a comma or a quote. */
const lineEnd = '\r\n';
const readingColumns = 'time,time_ms,value,raw_value,quality,reason';
export const readingsHeader = `${readingColumns}${lineEnd}`;
export const rollupHeader = `start,start_ms,good_readings,minimum,maximum,mean,all_readings${lineEnd}`;

const qualities = ['good', 'suspect', 'bad'] as const;

export function readingLine({ timeMs, value, rawValue, quality, reason }: Omit<Reading, 'channel'>): string {
  return `${isoTime(timeMs)},${timeMs},${value},${rawValue},${quality},${reason ?? ''}${lineEnd}`;
}

/**
 * Where no reading was good there is no minimum, maximum or mean: these stay empty. The mean has twelve digits: those
 * behind depend on the order in which readings were added up.
 */
export function rollupLine({ startMs, count, minimum, maximum, mean, countAll }: Rollup): string {
  const figures = count === 0 ? ',,' : `${minimum},${maximum},${Number(mean.toPrecision(12))}`;
  return `${isoTime(startMs)},${startMs},${count},${figures},${countAll}${lineEnd}`;
}

/**
 * Readings of one file, a group at a time.
 * @throws Error naming file and line of what is no reading.
 */
export async function* readReadings(
  path: string,
  channel: string,
  atOnce: number,
): AsyncGenerator<readonly Reading[]> {
  let group: Reading[] = [];
  let number = 0;
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Infinity })) {
    number += 1;
    if (number === 1) {
      if (line !== readingColumns) throw new Error(`${path}, line 1: allowed: ${readingColumns}`);
      continue;
    }
    group.push({ channel, ...parseLine(line, `${path}, line ${number}`) });
    if (group.length < atOnce) continue;
    yield group;
    group = [];
  }
  if (group.length > 0) yield group;
}

function parseLine(line: string, place: string): Omit<Reading, 'channel'> {
  const [, timeMs = '', value = '', rawValue = '', quality = '', reason = '', ...more] = line.split(',');
  const known = qualities.find((one) => one === quality);
  if (known === undefined || more.length > 0)
    throw new Error(`${place}: quality is "${quality}"; allowed: ${qualities.join(', ')}`);
  return {
    timeMs: numberIn(timeMs, 'time_ms', place),
    value: numberIn(value, 'value', place),
    rawValue: numberIn(rawValue, 'raw_value', place),
    quality: known,
    reason: reason === '' ? null : reasonIn(reason, place),
  };
}

function numberIn(text: string, field: string, place: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value))
    throw new Error(`${place}: ${field} is "${text}"; allowed: a number`);
  return value;
}

function reasonIn(text: string, place: string): QualityReason {
  const reason = qualityReasons.find((one) => one === text);
  if (reason === undefined)
    throw new Error(`${place}: reason is "${text}"; allowed: ${qualityReasons.join(', ')}, or nothing`);
  return reason;
}

const isoTime = (timeMs: number): string => new Date(timeMs).toISOString();
