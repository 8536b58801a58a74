/**
 * A JPEG file cut down to its picture. Phones write where and when a photo was taken, on which phone, and small copies of
 * it, into segments beside the picture (Exif, CIPA DC-008; markers: ITU-T T.81 Annex B): none of that is kept, whatever
 * sent it. Nothing is decoded here.
 */
export interface CleanJpeg {
  readonly bytes: Uint8Array;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** Why bytes are not taken as a photo, in words for people. */
export class NotAPhoto extends Error {
  override readonly name = 'NotAPhoto';
}

const startOfImage = 0xd8;
const endOfImage = 0xd9;
const startOfScan = 0xda;
const jfif = 0xe0;
/** Says how colours were stored; without it some pictures come out green. */
const adobe = 0xee;
/** Baseline, extended, progressive: what browsers write and show. */
const frames: readonly number[] = [0xc0, 0xc1, 0xc2];
const quantisation = 0xdb;
const huffman = 0xc4;
const restart = 0xdd;
const plain: readonly number[] = [quantisation, huffman, restart, adobe, startOfScan, ...frames];
/** JFIF 1.01, square pixels, no small copy inside. */
const plainJfif = Uint8Array.of(0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0);

/** @throws NotAPhoto when the bytes are no whole JPEG of a kind browsers show. */
export function cleanJpeg(bytes: Uint8Array): CleanJpeg {
  if (bytes[0] !== 0xff || bytes[1] !== startOfImage)
    throw new NotAPhoto('It does not begin as a JPEG picture does.');
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let size: Pick<CleanJpeg, 'widthPixels' | 'heightPixels'> | null = null;
  for (let at = 2; ; ) {
    const { marker, from, to } = segmentAt(bytes, at);
    if (marker === endOfImage) {
      // What is appended behind the picture (a film, further copies) ends here too.
      kept.push(bytes.subarray(from, to));
      break;
    }
    if (frames.includes(marker)) size = sizeIn(bytes, from);
    const end = marker === startOfScan ? endOfScan(bytes, to) : to;
    if (marker === jfif) kept.push(plainJfif);
    else if (plain.includes(marker)) kept.push(bytes.subarray(from, end));
    else if (!isLeftOut(marker)) throw new NotAPhoto('It is a kind of JPEG that browsers do not show.');
    at = end;
  }
  if (size === null) throw new NotAPhoto('There is no picture in it.');
  return { bytes: Buffer.concat(kept), ...size };
}

/** Application data but JFIF and Adobe, and comments. */
function isLeftOut(marker: number): boolean {
  return (marker >= 0xe1 && marker <= 0xef) || marker === 0xfe;
}

interface Segment {
  readonly marker: number;
  readonly from: number;
  /** Behind its last byte. */
  readonly to: number;
}

function segmentAt(bytes: Uint8Array, at: number): Segment {
  let from = at;
  // Fill bytes may stand before a marker.
  while (bytes[from] === 0xff && bytes[from + 1] === 0xff) from += 1;
  const marker = bytes[from + 1];
  if (bytes[from] !== 0xff || marker === undefined) throw new NotAPhoto('It is cut short or damaged.');
  if (marker === endOfImage) return { marker, from, to: from + 2 };
  const length = (bytes[from + 2]! << 8) | bytes[from + 3]!;
  const to = from + 2 + length;
  if (!(length >= 2) || to > bytes.length) throw new NotAPhoto('It is cut short or damaged.');
  return { marker, from, to };
}

/** Picture data runs on to the next marker; 0xff00 is data and 0xffd0 to 0xffd7 are marks within it. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at += 1) {
    const next = bytes[at + 1]!;
    if (bytes[at] === 0xff && next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  throw new NotAPhoto('It is cut short or damaged.');
}

function sizeIn(bytes: Uint8Array, from: number) {
  const number = (at: number) => (bytes[from + at]! << 8) | bytes[from + at + 1]!;
  return { heightPixels: number(5), widthPixels: number(7) };
}
