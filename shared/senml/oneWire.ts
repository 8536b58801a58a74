import { fromHex, toHex } from './hex.ts';

/** x^8 + x^5 + x^4 + 1 with the bits mirrored, as the 1-Wire bus shifts the least significant bit first. */
const mirroredPolynomial = 0x8c;

/** CRC-8 of the 1-Wire bus: start 0, no final inversion; over data followed by its own CRC it is 0. */
export function oneWireCrc8(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >> 1) ^ mirroredPolynomial : crc >> 1;
  }
  return crc;
}

/** Register content from power-up until a conversion succeeds (DS18B20 datasheet). A pile can truly be this hot. */
export const powerOnCelsius = 85;
/** 07FFh: a conversion that failed for want of power or time (Linux driver notes). Often printed as 127.94. */
export const failedConversionCelsius = 127.9375;
/** Not a measurement: what host libraries return when the sensor did not answer. */
export const didNotAnswerCelsius = -127;

export type ResolutionBits = 9 | 10 | 11 | 12;

/** Degrees Celsius between two neighbouring values at a resolution: 0.5, 0.25, 0.125 or 0.0625. */
export function resolutionCelsius(bits: ResolutionBits): number {
  return 2 ** (8 - bits);
}

/**
 * Temperature of a DS18B20 from its 16-bit register, two's complement in sixteenths of a degree. Below 12 bits the
 * lowest bits are undefined and are masked out (datasheet, "operation").
 */
export function decodeTemperatureCelsius(raw: number, bits: ResolutionBits = 12): number {
  const undefinedBits = 12 - bits;
  const signed = (raw << 16) >> 16;
  return ((signed >> undefinedBits) << undefinedBits) / 16;
}

export type ScratchpadProblem =
  | 'length'
  | 'bus-stuck-low'
  | 'crc-failed'
  | 'not-a-thermometer'
  | 'conversion-failed';
export type ScratchpadReading =
  | {
      readonly ok: true;
      readonly celsius: number;
      readonly bits: ResolutionBits;
      /** Exactly the power-on value; whether to believe it depends on what came before. */
      readonly isPowerOnValue: boolean;
    }
  | { readonly ok: false; readonly problem: ScratchpadProblem };

const scratchpadLength = 9;

/**
 * Temperature of a nine-byte DS18B20 scratchpad, or why it cannot be believed. A bus stuck low reads as nine zero
 * bytes, whose CRC is right and whose temperature is 0.0 C, so it is refused by name; the fixed bits of the
 * configuration byte (0rr11111, from memory, unconfirmed) catch other chips and wiring faults.
 */
export function readScratchpad(bytes: Uint8Array): ScratchpadReading {
  if (bytes.length !== scratchpadLength) return { ok: false, problem: 'length' };
  if (bytes.every((byte) => byte === 0)) return { ok: false, problem: 'bus-stuck-low' };
  if (oneWireCrc8(bytes) !== 0) return { ok: false, problem: 'crc-failed' };
  const configuration = bytes[4]!;
  if ((configuration & 0b1001_1111) !== 0b0001_1111) return { ok: false, problem: 'not-a-thermometer' };
  const bits = (9 + ((configuration >> 5) & 0b11)) as ResolutionBits;
  const raw = bytes[0]! | (bytes[1]! << 8);
  if (raw === 0x07ff) return { ok: false, problem: 'conversion-failed' };
  const celsius = decodeTemperatureCelsius(raw, bits);
  return { ok: true, celsius, bits, isPowerOnValue: celsius === powerOnCelsius };
}

/** Name Linux gives a chip, from its ROM code of 16 hex digits in bus order: family, then the serial reversed, no CRC. */
export function linuxNameOfRom(rom: string): string | null {
  const bytes = fromHex(rom);
  if (bytes === null || bytes.length !== 8) return null;
  return `${toHex(bytes.subarray(0, 1))}-${toHex(bytes.slice(1, 7).reverse())}`;
}

/** ROM code in bus order with its CRC, from the name Linux gives a chip; null when it is not such a name. */
export function romOfLinuxName(name: string): string | null {
  const match = /^([0-9a-f]{2})-([0-9a-f]{12})$/i.exec(name);
  const serial = match && fromHex(match[2]!);
  if (!match || !serial) return null;
  const body = Uint8Array.of(Number.parseInt(match[1]!, 16), ...serial.reverse());
  return toHex(Uint8Array.of(...body, oneWireCrc8(body)));
}
