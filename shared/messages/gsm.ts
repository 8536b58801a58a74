import { septetsByCharacter } from './gsmAlphabet.ts';

export type SmsEncoding = 'gsm' | 'ucs2';

/** What fits in one text alone, and in each part of a longer one (3GPP TS 23.040, 8-bit reference). */
export const smsLimits = {
  gsm: { alone: 160, perPart: 153 },
  ucs2: { alone: 70, perPart: 67 },
} as const;

/** How a text travels: in 7-bit characters if every one of them is in the GSM alphabet, else all of it in UCS-2. */
export function encodingOf(text: string): SmsEncoding {
  for (const character of text) if (!septetsByCharacter.has(character)) return 'ucs2';
  return 'gsm';
}

/** Septets of a text, characters of the extension table counting two; null when a character is not GSM. */
export function septetCount(text: string): number | null {
  let count = 0;
  for (const character of text) {
    const septets = septetsByCharacter.get(character);
    if (septets === undefined) return null;
    count += septets.length;
  }
  return count;
}

/** Septets of a text; throws RangeError naming the first character outside the alphabet. */
export function septetsOf(text: string): number[] {
  return [...text].flatMap((character) => {
    const septets = septetsByCharacter.get(character);
    if (septets === undefined)
      throw new RangeError(`character "${character}": allowed the GSM 03.38 alphabet`);
    return septets;
  });
}

/** Units a text takes in its encoding: septets, or UTF-16 units. */
export function unitCount(text: string): number {
  return septetCount(text) ?? text.length;
}

/**
 * The parts a text is sent in. A character of two units (an ESC pair, a surrogate pair) never straddles two parts, so
 * there may be more of them than the total divided by the size of a part.
 */
export function partsOf(text: string): string[] {
  const encoding = encodingOf(text);
  const { alone, perPart } = smsLimits[encoding];
  if (unitCount(text) <= alone) return [text];
  const parts: string[] = [];
  let part = '';
  let used = 0;
  for (const character of text) {
    const cost = costOf(character, encoding);
    if (used + cost > perPart) {
      parts.push(part);
      part = '';
      used = 0;
    }
    part += character;
    used += cost;
  }
  return [...parts, part];
}

/** Number of parts a text is sent in, and paid for. */
export function partCount(text: string): number {
  return partsOf(text).length;
}

/** Units of one character in an encoding. */
export function costOf(character: string, encoding: SmsEncoding): number {
  return encoding === 'gsm' ? septetsByCharacter.get(character)!.length : character.length;
}

/**
 * Septets packed into octets, low bits first (3GPP TS 23.038 section 6.1.2). `fillBits` zero bits come first, so that
 * the text starts on a septet boundary after a header of whole octets.
 */
export function packSeptets(septets: readonly number[], fillBits = 0): Uint8Array {
  const octets = new Uint8Array(Math.ceil((septets.length * 7 + fillBits) / 8));
  septets.forEach((septet, index) => {
    const bit = fillBits + index * 7;
    const shifted = septet << (bit % 8);
    const place = Math.floor(bit / 8);
    octets[place]! |= shifted & 0xff;
    if (shifted > 0xff) octets[place + 1]! |= shifted >> 8;
  });
  return octets;
}
