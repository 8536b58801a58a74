/** No I, O, S, Z or 0, 1, 2, 5: what is read off a small screen must not be mistaken. */
const letters = 'ABCDEFGHJKLMNPQRTUVWXY';
const digits = '346789';

/**
 * A short code people answer a text with, e.g. `K7`: the first one free from a place given by `seed`, so that
 * neighbouring alarms do not get neighbouring codes. A second digit is added once all short ones are taken.
 */
export function freeCode(taken: ReadonlySet<string>, seed: string): string {
  for (let length = 1; ; length += 1) {
    const all = codesOf(length);
    const start = hash(seed) % all.length;
    const found = [...all.slice(start), ...all.slice(0, start)].find((code) => !taken.has(code));
    if (found !== undefined) return found;
  }
}

function codesOf(digitCount: number): string[] {
  let codes = [...letters];
  for (let i = 0; i < digitCount; i += 1)
    codes = codes.flatMap((code) => [...digits].map((digit) => code + digit));
  return codes;
}

function hash(text: string): number {
  let value = 7;
  for (const character of text) value = (value * 31 + character.codePointAt(0)!) % 1_000_003;
  return value;
}
