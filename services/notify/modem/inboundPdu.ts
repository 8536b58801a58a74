import { fromHex } from '../../../shared/senml/hex.ts';
import { textOfSeptets, unpackSeptets } from './septets.ts';
import { textOfUcs2 } from './ucs2.ts';

/** Which part of a longer text this is. */
export interface PartOf {
  readonly reference: number;
  readonly count: number;
  /** From 1. */
  readonly number: number;
}

export type InboundPdu =
  | {
      readonly kind: 'text';
      readonly from: string;
      readonly text: string;
      readonly takenMs: number | null;
      readonly part: PartOf | null;
    }
  | { readonly kind: 'report'; readonly messageReference: number; readonly status: number };

const international = 1;
const alphanumeric = 5;

/**
 * What came in, from the hex digits of a DELIVER or a STATUS-REPORT (TS 23.040 section 9.2.2; layout from memory). Null
 * for anything else: pictures, settings of the operator, compressed or broken ones.
 */
export function readInboundPdu(hex: string): InboundPdu | null {
  const octets = fromHex(hex.trim());
  if (octets === null) return null;
  const reader = createReader(octets);
  try {
    reader.skip(reader.octet());
    const first = reader.octet();
    if ((first & 0x03) === 0) return readDeliver(reader, (first & 0x40) !== 0);
    if ((first & 0x03) === 2) return readReport(reader);
    return null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

type Reader = ReturnType<typeof createReader>;

function createReader(octets: Uint8Array) {
  let at = 0;
  const take = (count: number) => {
    if (at + count > octets.length) throw new RangeError('the PDU ends too soon');
    at += count;
    return octets.subarray(at - count, at);
  };
  return {
    take,
    octet: () => take(1)[0]!,
    skip: (count: number) => void take(count),
    rest: () => octets.subarray(at),
  };
}

function readDeliver(reader: Reader, hasHeader: boolean): InboundPdu | null {
  const from = readAddress(reader);
  reader.skip(1);
  const coding = codingOf(reader.octet());
  const takenMs = readTime(reader.take(7));
  const length = reader.octet();
  const data = reader.rest();
  const headerLength = hasHeader ? (data[0] ?? 0) + 1 : 0;
  const part = hasHeader ? readPart(data.subarray(1, headerLength)) : null;
  if (coding === null) return null;
  if (coding === 'ucs2') {
    if (data.length < length) return null;
    return { kind: 'text', from, takenMs, part, text: textOfUcs2(data.subarray(headerLength, length)) };
  }
  const headerSeptets = Math.ceil((headerLength * 8) / 7);
  if (data.length < Math.ceil((length * 7) / 8)) return null;
  const septets = unpackSeptets(data, length - headerSeptets, headerSeptets * 7);
  return { kind: 'text', from, takenMs, part, text: textOfSeptets(septets) };
}

function readReport(reader: Reader): InboundPdu {
  const messageReference = reader.octet();
  readAddress(reader);
  reader.skip(14);
  return { kind: 'report', messageReference, status: reader.octet() };
}

/** Number of digits, type, digits with the halves of each octet swapped; or a name in packed septets. */
function readAddress(reader: Reader): string {
  const digits = reader.octet();
  const type = (reader.octet() >> 4) & 0x07;
  const octets = reader.take(Math.ceil(digits / 2));
  if (type === alphanumeric)
    return textOfSeptets(unpackSeptets(octets, Math.floor((digits * 4) / 7), 0)).trim();
  const number = swapped(octets).slice(0, digits);
  return type === international ? `+${number}` : number;
}

function swapped(octets: Uint8Array): string {
  const digit = (half: number) => '0123456789*#abc'[half] ?? '';
  return [...octets].map((octet) => digit(octet & 0x0f) + digit(octet >> 4)).join('');
}

/** Alphabet of a data coding scheme (TS 23.038 section 4); null for octets that are no text, or compressed text. */
function codingOf(scheme: number): 'gsm' | 'ucs2' | null {
  const group = scheme >> 4;
  if (group <= 0x07) {
    if ((scheme & 0x20) !== 0) return null;
    return (['gsm', null, 'ucs2', null] as const)[(scheme >> 2) & 0x03]!;
  }
  if (group === 0x0c || group === 0x0d) return 'gsm';
  if (group === 0x0e) return 'ucs2';
  return group === 0x0f && (scheme & 0x04) === 0 ? 'gsm' : null;
}

/** Year to second, then quarter hours from Greenwich with the sign in bit 3; null when it is no time. */
function readTime(octets: Uint8Array): number | null {
  const two = (octet: number) => (octet & 0x0f) * 10 + (octet >> 4);
  const [year, month, day, hour, minute, second] = [...octets].map(two) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const zone = octets[6]!;
  const quarters = two(zone & 0xf7) * ((zone & 0x08) === 0 ? 1 : -1);
  const ms = Date.UTC(2000 + year, month - 1, day, hour, minute, second) - quarters * 15 * 60_000;
  return month >= 1 && month <= 12 && Number.isFinite(ms) ? ms : null;
}

/** The element that says which part this is, with a reference of one octet (00) or two (08). */
function readPart(header: Uint8Array): PartOf | null {
  for (let at = 0; at + 1 < header.length; at += 2 + header[at + 1]!) {
    const value = header.subarray(at + 2, at + 2 + header[at + 1]!);
    const isShort = header[at] === 0x00 && value.length === 3;
    if (!isShort && !(header[at] === 0x08 && value.length === 4)) continue;
    const [number, count] = [value.at(-1)!, value.at(-2)!];
    if (number < 1 || number > count) return null;
    return { reference: isShort ? value[0]! : (value[0]! << 8) | value[1]!, count, number };
  }
  return null;
}
