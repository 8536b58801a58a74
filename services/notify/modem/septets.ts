import { escapeSeptet, septetsByCharacter } from '../../../shared/messages/gsmAlphabet.ts';

const characterBySeptets = new Map(
  [...septetsByCharacter].map(([character, septets]) => [septets.join(), character]),
);

/** Septets packed low bits first (TS 23.038 section 6.1.2), of which `fillBits` at the start are passed over. */
export function unpackSeptets(octets: Uint8Array, count: number, fillBits: number): number[] {
  const bitAt = (bit: number) => ((octets[bit >> 3] ?? 0) >> (bit & 7)) & 1;
  return Array.from({ length: count }, (_, index) => {
    const start = fillBits + index * 7;
    return [0, 1, 2, 3, 4, 5, 6].reduce((septet, bit) => septet | (bitAt(start + bit) << bit), 0);
  });
}

/** Text of septets; a pair that is not in the extension table shows as its second character, as 23.038 asks. */
export function textOfSeptets(septets: readonly number[]): string {
  let text = '';
  for (let at = 0; at < septets.length; at += 1) {
    const septet = septets[at]!;
    if (septet !== escapeSeptet) text += characterBySeptets.get(String(septet)) ?? ' ';
    else if (at + 1 < septets.length) {
      at += 1;
      const next = septets[at]!;
      text +=
        characterBySeptets.get(`${escapeSeptet},${next}`) ?? characterBySeptets.get(String(next)) ?? ' ';
    }
  }
  return text;
}
