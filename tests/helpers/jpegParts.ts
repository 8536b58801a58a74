/** A JPEG put together from segments (ITU-T T.81 Annex B), so that a test says exactly what is in it. */
export function segment(marker: number, ...content: readonly (number | string)[]): Buffer {
  const body = Buffer.concat(
    content.map((part) => (typeof part === 'string' ? Buffer.from(part, 'latin1') : Buffer.of(part))),
  );
  return Buffer.concat([Buffer.of(0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff), body]);
}

export const startOfImage = Buffer.of(0xff, 0xd8);
export const endOfImage = Buffer.of(0xff, 0xd9);
export const jfif = segment(0xe0, 'JFIF', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0);
/** Where, when and with what a photo was taken (Exif, CIPA DC-008); the text stands for coordinates. */
export const exif = segment(0xe1, 'Exif', 0, 0, 'GPS 58.21 N 6.38 W, owner of the phone');
export const tables = [segment(0xdb, 0, ...Array(64).fill(1)), segment(0xc4, 0, ...Array(16).fill(0))];
/** Frame header of one grey component; baseline unless said. */
export function frame(width: number, height: number, marker = 0xc0): Buffer {
  return segment(marker, 8, height >> 8, height & 0xff, width >> 8, width & 0xff, 1, 1, 0x11, 0);
}
/** A scan whose data hold a stuffed 0xff and a restart mark. */
export const scan = Buffer.concat([
  segment(0xda, 1, 1, 0, 0, 63, 0),
  Buffer.of(0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56),
]);

export function jpeg(...parts: readonly Buffer[]): Buffer {
  return Buffer.concat([startOfImage, ...parts, endOfImage]);
}
