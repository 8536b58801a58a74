import { photoMediaType, photoMostBytes } from '../../../../shared/api/constants.ts';
import { pressWords } from './words.ts';

/** Longest edge of what is sent: enough to see white threads or a dry layer, small enough for a poor signal. */
const longestPixels = 1280;
/** A raw file of a big camera; more would only make a small phone give up. */
const largestBytes = 60_000_000;
const qualities = [0.8, 0.65, 0.5, 0.35] as const;

/** Why a file is not taken, in words. */
export class PhotoRefused extends Error {
  override readonly name = 'PhotoRefused';
}

/**
 * Draws a chosen file anew, small: the picture is kept the right way up, and everything else in the file (where and when it
 * was taken, on which phone) is left behind. @throws PhotoRefused when it is no picture this browser can read.
 */
export async function scalePhoto(file: File): Promise<Blob> {
  if (!file.type.startsWith('image/')) throw new PhotoRefused(pressWords.noPicture);
  if (file.size > largestBytes) throw new PhotoRefused(pressWords.photoTooLarge(largestBytes / 1_000_000));
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => {
    throw new PhotoRefused(pressWords.photoUnreadable);
  });
  const scale = Math.min(1, longestPixels / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  for (const quality of qualities) {
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, photoMediaType, quality));
    if (blob !== null && blob.size <= photoMostBytes) return blob;
  }
  throw new PhotoRefused(pressWords.photoNotSmall);
}
