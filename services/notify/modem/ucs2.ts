import { fromHex } from '../../../shared/senml/hex.ts';

/** Text as hex digits, four for each UTF-16 unit, as modems want it in the character set "UCS2". */
export function toUcs2Hex(text: string): string {
  return Array.from({ length: text.length }, (_, index) =>
    text.charCodeAt(index).toString(16).toUpperCase().padStart(4, '0'),
  ).join('');
}

/** Text of octets in UCS-2, high octet first. */
export function textOfUcs2(octets: Uint8Array): string {
  let text = '';
  for (let at = 0; at + 1 < octets.length; at += 2)
    text += String.fromCharCode((octets[at]! << 8) | octets[at + 1]!);
  return text;
}

/** Text of hex digits; null when it is not UCS-2 in hex. */
export function fromUcs2Hex(hex: string): string | null {
  const octets = hex.length % 4 === 0 ? fromHex(hex) : null;
  return octets === null ? null : textOfUcs2(octets);
}
