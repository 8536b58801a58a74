import { encodingOf, packSeptets, septetsOf } from '../../shared/messages/gsm.ts';
import { septetsByCharacter } from '../../shared/messages/gsmAlphabet.ts';

/** A SUBMIT as a network reads it, written apart from the code that writes ours (TS 23.040 section 9.2.2.2). */
export interface ReadSubmit {
  readonly to: string;
  readonly text: string;
  readonly part: { readonly reference: number; readonly count: number; readonly number: number } | null;
  readonly wantsReport: boolean;
  readonly validity: number;
  /** Octets without the service-centre part, which `AT+CMGS=` must have said. */
  readonly length: number;
}

const characters = new Map(
  [...septetsByCharacter].map(([character, septets]) => [septets.join(), character]),
);

/** Throws Error when the hex is no SUBMIT with relative validity. */
export function readSubmit(hex: string): ReadSubmit {
  const octets = Buffer.from(hex, 'hex');
  if (octets.length * 2 !== hex.length) throw new Error(`not hex: ${hex}`);
  const start = 1 + octets[0]!;
  const first = octets[start]!;
  if ((first & 0x1b) !== 0x11)
    throw new Error(`first octet ${first.toString(16)} is no SUBMIT with validity`);
  const digits = octets[start + 2]!;
  if (octets[start + 3] !== 0x91) throw new Error('number is not international');
  const numberEnd = start + 4 + Math.ceil(digits / 2);
  const to = swapped(octets.subarray(start + 4, numberEnd)).slice(0, digits);
  const [, scheme, validity, length] = octets.subarray(numberEnd, numberEnd + 4);
  const data = octets.subarray(numberEnd + 4);
  const header = (first & 0x40) === 0 ? Buffer.alloc(0) : data.subarray(0, data[0]! + 1);
  return {
    to: `+${to}`,
    text: scheme === 8 ? ucs2(data.subarray(header.length, length)) : gsm(data, length!, header.length),
    part: header.length === 0 ? null : { reference: header[3]!, count: header[4]!, number: header[5]! },
    wantsReport: (first & 0x20) !== 0,
    ...{ validity: validity!, length: octets.length - start },
  };
}

function swapped(octets: Buffer): string {
  return octets.toString('hex').replaceAll(/(.)(.)/g, '$2$1');
}

function ucs2(octets: Buffer): string {
  return Buffer.from(octets).swap16().toString('utf16le');
}

function gsm(data: Buffer, length: number, headerLength: number): string {
  // All bits in the order they were packed; the text starts at the next multiple of seven after the header.
  const bits = [...data].map((octet) => [...octet.toString(2).padStart(8, '0')].reverse().join('')).join('');
  const headerSeptets = Math.ceil((headerLength * 8) / 7);
  let text = '';
  let pair = '';
  for (let at = headerSeptets; at < length; at += 1) {
    const septet = Number.parseInt([...bits.slice(at * 7, at * 7 + 7)].reverse().join(''), 2);
    if (septet === 0x1b) pair = `${septet},`;
    else {
      text += characters.get(pair + septet) ?? '?';
      pair = '';
    }
  }
  return text;
}

export interface DeliverOptions {
  readonly from: string;
  readonly text: string;
  readonly part?: { readonly reference: number; readonly count: number; readonly number: number };
}

/** A DELIVER as it comes from the network, taken on 25 November 2026 at 09:30 UTC, in a zone an hour ahead. */
export function deliverPdu({ from, text, part }: DeliverOptions): string {
  const isUcs2 = encodingOf(text) === 'ucs2';
  const header = part ? [5, 0, 3, part.reference, part.count, part.number] : [];
  const first = header.length > 0 ? 0x44 : 0x04;
  const time = '62115201030040';
  const data = isUcs2 ? ucs2Data(text, header) : gsmData(text, header);
  const scheme = isUcs2 ? 8 : 0;
  return `${serviceCentre}${hex(first)}${address(from)}00${hex(scheme)}${time}${data}`.toUpperCase();
}

/** A STATUS-REPORT for a text that went out. */
export function statusReportPdu(messageReference: number, to: string, status: number): string {
  const time = '62115201030040';
  return `${serviceCentre}06${hex(messageReference)}${address(to)}${time}${time}${hex(status)}`.toUpperCase();
}

const serviceCentre = '07914416329600f0';
const hex = (octet: number) => octet.toString(16).padStart(2, '0');

function address(from: string): string {
  if (!/^\+?\d+$/.test(from)) {
    const packed = Buffer.from(packSeptets(septetsOf(from))).toString('hex');
    return `${hex(packed.length)}d0${packed}`;
  }
  const digits = from.replace('+', '');
  const padded = digits.length % 2 === 0 ? digits : `${digits}f`;
  return `${hex(digits.length)}${from.startsWith('+') ? '91' : '81'}${padded.replaceAll(/(.)(.)/g, '$2$1')}`;
}

function ucs2Data(text: string, header: readonly number[]): string {
  const octets = Buffer.from(text, 'utf16le').swap16();
  return `${hex(header.length + octets.length)}${header.map(hex).join('')}${octets.toString('hex')}`;
}

function gsmData(text: string, header: readonly number[]): string {
  const septets = septetsOf(text);
  const headerSeptets = Math.ceil((header.length * 8) / 7);
  const packed = packSeptets(septets, headerSeptets * 7 - header.length * 8);
  return `${hex(headerSeptets + septets.length)}${header.map(hex).join('')}${Buffer.from(packed).toString('hex')}`;
}
