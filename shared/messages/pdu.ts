import { toHex } from '../senml/hex.ts';
import { encodingOf, packSeptets, partsOf, type SmsEncoding, septetsOf } from './gsm.ts';
import { isE164 } from './phoneNumber.ts';

/** A message as a modem wants it in PDU mode (3GPP TS 23.040; the layout is from memory, proved by one known vector). */
export interface SubmitPdu {
  /** Hex digits to send after the prompt; starts with 00, "service centre as stored in the SIM". */
  readonly hex: string;
  /** Number for `AT+CMGS=`: octets without the service-centre part. */
  readonly length: number;
}

export interface SubmitOptions {
  /** Ties the parts of one message together, 0 to 255; two long messages to one phone should differ. */
  readonly reference?: number;
  /** Relative validity; AA is four days. */
  readonly validity?: number;
  /** Ask the network to report when the text reached the phone. */
  readonly wantsReport?: boolean;
}

const submitWithRelativeValidity = 0x11;
const statusReportRequested = 0x20;
const userDataHeaderPresent = 0x40;
const internationalNumber = 0x91;
const codingScheme: Readonly<Record<SmsEncoding, number>> = { gsm: 0x00, ucs2: 0x08 };

/** SUBMIT units for a text, one for each part. Throws RangeError for a number that is not E.164 or more than 255 parts. */
export function submitPdus(number: string, text: string, options: SubmitOptions = {}): SubmitPdu[] {
  if (!isE164(number)) throw new RangeError(`number "${number}": allowed + and 2 to 15 digits`);
  const { reference = 0, validity = 0xaa, wantsReport = false } = options;
  const encoding = encodingOf(text);
  const parts = partsOf(text);
  if (parts.length > 255) throw new RangeError(`text of ${parts.length} parts: allowed at most 255`);
  return parts.map((part, index) => {
    const header = parts.length === 1 ? [] : [0x05, 0x00, 0x03, reference & 0xff, parts.length, index + 1];
    const firstOctet =
      submitWithRelativeValidity |
      (header.length > 0 ? userDataHeaderPresent : 0) |
      (wantsReport ? statusReportRequested : 0);
    const octets = Uint8Array.of(
      ...[firstOctet, 0x00, ...destination(number), 0x00, codingScheme[encoding], validity],
      ...userData(part, encoding, header),
    );
    return { hex: `00${toHex(octets)}`.toUpperCase(), length: octets.length };
  });
}

/** Count of digits, type, and the digits in pairs with the halves of each octet swapped; an odd one is filled with F. */
function destination(number: string): number[] {
  const digits = number.slice(1);
  const padded = digits.length % 2 === 0 ? digits : `${digits}F`;
  const octets = padded.match(/../g)!.map((pair) => Number.parseInt(`${pair[1]}${pair[0]}`, 16));
  return [digits.length, internationalNumber, ...octets];
}

/** Length (septets, or octets for UCS-2; the header counts), header, text. */
function userData(part: string, encoding: SmsEncoding, header: readonly number[]): number[] {
  if (encoding === 'ucs2') {
    const octets = [...part.split('')].flatMap((unit) => [
      unit.charCodeAt(0) >> 8,
      unit.charCodeAt(0) & 0xff,
    ]);
    return [header.length + octets.length, ...header, ...octets];
  }
  const septets = septetsOf(part);
  const headerSeptets = Math.ceil((header.length * 8) / 7);
  const fillBits = headerSeptets * 7 - header.length * 8;
  return [headerSeptets + septets.length, ...header, ...packSeptets(septets, fillBits)];
}
