import type { PileLimits } from '../rules/pileSubject.ts';
import type { Past, PastChannel } from '../rules/replayPast.ts';
import { textFromUtf8, utf8FromText } from '../senml/textBytes.ts';
import type { TemperatureUnit } from '../yard/yard.ts';

/**
 * `GET /api/piles/:pileId/past`: what a browser needs to replay a pile's past by itself, as bytes, because a year of
 * minutes as text would be five times as long. First a 32-bit little-endian length, then so many bytes of JSON
 * (`PastHeader`), then each channel's columns: times and values as 64-bit floats, quality and reason as one byte each.
 * Every part starts at a multiple of eight bytes.
 */
export interface PastHeader {
  readonly facts: Past['facts'];
  readonly hoursBefore: NonNullable<Past['hoursBefore']>;
  readonly toMs: number;
  readonly channels: readonly { readonly placementId: string; readonly length: number }[];
  readonly limits: PileLimits;
  readonly temperatureUnit: TemperatureUnit;
}

/** A pile's past with the limits in force. */
export interface ReplayablePast {
  readonly past: Past;
  readonly limits: PileLimits;
  readonly temperatureUnit: TemperatureUnit;
}

const aligned = (bytes: number): number => Math.ceil(bytes / 8) * 8;
const bytesOfChannel = (length: number): number => 16 * length + 2 * aligned(length);

/** Puts a past into bytes. */
export function encodePast({ past, limits, temperatureUnit }: ReplayablePast): Uint8Array<ArrayBuffer> {
  const { facts, hoursBefore = [], toMs, channels } = past;
  const lengths = channels.map(({ placementId, timesMs }) => ({ placementId, length: timesMs.length }));
  const header: PastHeader = { facts, hoursBefore, toMs, channels: lengths, limits, temperatureUnit };
  const text = utf8FromText(JSON.stringify(header));
  const start = aligned(4 + text.length);
  const size = lengths.reduce((sum, { length }) => sum + bytesOfChannel(length), start);
  const bytes = new Uint8Array(size);
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(text, 4);
  let at = start;
  for (const channel of channels) {
    const columns = columnsAt(bytes.buffer, at, channel.timesMs.length);
    columns.timesMs.set(channel.timesMs);
    columns.values.set(channel.values);
    columns.quality.set(channel.quality);
    if (channel.reasons !== undefined) columns.reasons.set(channel.reasons);
    at += bytesOfChannel(channel.timesMs.length);
  }
  return bytes;
}

/** Reads bytes made by `encodePast`; the columns are views of the same memory. Throws RangeError when bytes are missing or wrong. */
export function decodePast(buffer: ArrayBuffer): ReplayablePast {
  const length = new DataView(buffer).getUint32(0, true);
  const text = textFromUtf8(new Uint8Array(buffer, 4, length));
  if (text === null) throw new RangeError('these bytes are not a past');
  const header = JSON.parse(text) as PastHeader;
  let at = aligned(4 + length);
  const channels = header.channels.map((channel): PastChannel => {
    const columns = columnsAt(buffer, at, channel.length);
    at += bytesOfChannel(channel.length);
    return { placementId: channel.placementId, ...columns };
  });
  const { facts, hoursBefore, toMs, limits, temperatureUnit } = header;
  return { past: { facts, hoursBefore, toMs, channels }, limits, temperatureUnit };
}

function columnsAt(buffer: ArrayBuffer, at: number, length: number) {
  return {
    timesMs: new Float64Array(buffer, at, length),
    values: new Float64Array(buffer, at + 8 * length, length),
    quality: new Uint8Array(buffer, at + 16 * length, length),
    reasons: new Uint8Array(buffer, at + 16 * length + aligned(length), length),
  };
}
