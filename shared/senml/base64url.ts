const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const sixBitsOf = new Map([...alphabet].map((character, value) => [character, value]));

/** Bytes as base64 with the URL-safe alphabet and no padding (RFC 4648 section 5), the form SenML wants for `vd`. */
export function toBase64Url(bytes: Uint8Array): string {
  let text = '';
  for (let start = 0; start < bytes.length; start += 3) {
    const group = bytes.subarray(start, start + 3);
    const bits = (group[0]! << 16) | ((group[1] ?? 0) << 8) | (group[2] ?? 0);
    const quartet = [18, 12, 6, 0].map((shift) => alphabet[(bits >> shift) & 63]).join('');
    text += quartet.slice(0, group.length + 1);
  }
  return text;
}

/** The bytes of URL-safe base64 without padding, or null when the text is not that. */
export function fromBase64Url(text: string): Uint8Array | null {
  // One character left over carries only six bits: no whole byte can come of it.
  if (text.length % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let bitCount = 0;
  let position = 0;
  for (const character of text) {
    const value = sixBitsOf.get(character);
    if (value === undefined) return null;
    bits = ((bits << 6) | value) & 0xffff;
    bitCount += 6;
    if (bitCount >= 8) {
      bitCount -= 8;
      bytes[position++] = (bits >> bitCount) & 0xff;
    }
  }
  return bytes;
}
