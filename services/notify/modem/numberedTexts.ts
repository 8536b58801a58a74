import { costOf, encodingOf, smsLimits, unitCount } from '../../../shared/messages/gsm.ts';

/**
 * A long text as several that each stand alone and begin with "1/3 ", for text mode, where parts cannot be tied together.
 * At most `most` of them; what is beyond is cut. A short text is left as it is.
 */
export function numberedTexts(text: string, most: number): string[] {
  const limit = smsLimits[encodingOf(text)].alone;
  if (unitCount(text) <= limit) return [text];
  // Room for "nn/nn ": most is at most 20.
  const pieces = cutUp(text, limit - `${most}/${most} `.length).slice(0, most);
  return pieces.map((piece, index) => `${index + 1}/${pieces.length} ${piece}`);
}

function cutUp(text: string, room: number): string[] {
  const encoding = encodingOf(text);
  const pieces: string[] = [];
  let piece = '';
  let used = 0;
  for (const character of text) {
    const cost = costOf(character, encoding);
    if (used + cost > room) {
      pieces.push(piece);
      piece = '';
      used = 0;
    }
    piece += character;
    used += cost;
  }
  return [...pieces, piece];
}
