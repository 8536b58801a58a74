/** ESC: the next septet is looked up in the extension table. */
export const escapeSeptet = 0x1b;

/** GSM 03.38 basic table (3GPP TS 23.038 section 6.2.1, as GSM0338.TXT maps it); U+001B holds the place of ESC. */
const basicTable =
  '@£$¥èéùìòç\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ' +
  ' !"#¤%&\'()*+,-./0123456789:;<=>?' +
  '¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§' +
  '¿abcdefghijklmnopqrstuvwxyzäöñüà';

/** Characters reached through ESC; each costs two septets. */
const extensionTable: readonly (readonly [string, number])[] = [
  ['\f', 0x0a],
  ['^', 0x14],
  ['{', 0x28],
  ['}', 0x29],
  ['\\', 0x2f],
  ['[', 0x3c],
  ['~', 0x3d],
  [']', 0x3e],
  ['|', 0x40],
  ['€', 0x65],
];

/** Septets of every character a GSM text can hold: one, or ESC and one. */
export const septetsByCharacter: ReadonlyMap<string, readonly number[]> = new Map<string, readonly number[]>([
  ...[...basicTable]
    .map((character, code) => [character, [code]] as const)
    .filter(([, [code]]) => code !== 0x1b),
  ...extensionTable.map(([character, code]) => [character, [escapeSeptet, code]] as const),
]);
