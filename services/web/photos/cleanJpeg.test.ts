import { describe, expect, it } from 'vitest';
import {
  endOfImage,
  exif,
  frame,
  jfif,
  jpeg,
  scan,
  segment,
  startOfImage,
  tables,
} from '../../../tests/helpers/jpegParts.ts';
import { cleanJpeg } from './cleanJpeg.ts';

const picture = [...tables, frame(640, 480), scan];
const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1');

describe('a photo as a phone sends it', () => {
  it('keeps the picture and its size', () => {
    expect(cleanJpeg(jpeg(jfif, ...picture))).toEqual({
      bytes: jpeg(jfif, ...picture),
      widthPixels: 640,
      heightPixels: 480,
    });
    expect(cleanJpeg(jpeg(...tables, frame(20, 10, 0xc2), scan, scan)).widthPixels).toBe(20);
  });

  it('loses place, time, phone, small copies, comments, and whatever follows the picture', () => {
    const small = segment(0xe0, 'JFIF', 0, 1, 1, 0, 0, 1, 0, 1, 1, 1, 'rgb');
    const extra = [segment(0xe2, 'MPF copies'), segment(0xed, 'IPTC caption'), segment(0xfe, 'a comment')];
    const sent = Buffer.concat([
      jpeg(small, exif, ...extra, ...picture),
      Buffer.from('a film, with a second Exif GPS'),
    ]);
    const { bytes } = cleanJpeg(sent);
    expect(text(bytes)).not.toMatch(/Exif|GPS|owner|MPF|IPTC|comment|film|rgb/);
    expect(Buffer.from(bytes)).toEqual(jpeg(jfif, ...picture));
  });

  it('loses them behind a first scan too, where a progressive picture has several', () => {
    const { bytes } = cleanJpeg(jpeg(...tables, frame(20, 10, 0xc2), scan, exif, scan));
    expect(text(bytes)).not.toMatch(/Exif|GPS/);
    expect(Buffer.from(bytes)).toEqual(jpeg(...tables, frame(20, 10, 0xc2), scan, scan));
  });

  it('keeps how colours were stored', () => {
    const adobe = segment(0xee, 'Adobe', 0, 100, 0, 0, 0, 0, 1);
    expect(Buffer.from(cleanJpeg(jpeg(adobe, ...picture)).bytes)).toEqual(jpeg(adobe, ...picture));
  });
});

describe('what is no photo is refused in words', () => {
  it.each([
    ['a PNG', Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), /does not begin as a JPEG/],
    ['a page', Buffer.from('<!doctype html><script>'), /does not begin as a JPEG/],
    ['nothing', Buffer.alloc(0), /does not begin as a JPEG/],
    ['a cut file', jpeg(...picture).subarray(0, 90), /cut short or damaged/],
    ['data that never end', Buffer.concat([startOfImage, ...picture]), /cut short or damaged/],
    ['no picture', jpeg(jfif), /no picture/],
    ['a lossless one', jpeg(...tables, frame(9, 9, 0xc3), scan), /browsers do not show/],
    [
      'a segment longer than the file',
      Buffer.concat([startOfImage, Buffer.of(0xff, 0xdb, 9, 9)]),
      /cut short/,
    ],
    ['a segment shorter than its length', jpeg(Buffer.of(0xff, 0xdb, 0, 1)), /cut short or damaged/],
    ['rubbish between', Buffer.concat([startOfImage, Buffer.of(7, 7), endOfImage]), /cut short or damaged/],
  ])('%s', (_what, bytes, said) => {
    expect(() => cleanJpeg(bytes)).toThrow(said);
  });
});
