import { encode } from 'uqr';

/** The modules of a QR code (ISO/IEC 18004) row by row, true for dark, without its quiet zone. */
export function qrRows(content: string): readonly (readonly boolean[])[] {
  return encode(content, { ecc: 'M', border: 0 }).data;
}
