import { costOf, septetCount, smsLimits } from './gsm.ts';
import { transliterate } from './transliterate.ts';

/** A piece of a text message. The pieces stand in reading order; the priority says which may go first. */
export interface MessagePiece {
  readonly text: string;
  /** 1 is kept to the last; the highest number is shortened or dropped first. */
  readonly priority: number;
  /** Shorter ways to say it, longest first. */
  readonly shorter?: readonly string[];
  /** It may be shortened and not dropped; those of priority 1 are so anyway. */
  readonly isKept?: boolean;
}

export interface FittedMessage {
  readonly text: string;
  readonly septets: number;
  /** Whether anything was shortened, dropped or cut. */
  readonly isShortened: boolean;
  /** Whether even what is never dropped was too long, so that its end is missing. */
  readonly isCut: boolean;
}

/** Pieces of this priority say what and where: they are cut at the end rather than dropped. */
const keptPriority = 1;

/**
 * One text in the GSM alphabet that fits in one SMS. While it is too long, the piece of least priority takes its next
 * shorter form, or goes when it has none left; among equals the later one first. Pieces of priority 1, and those that
 * are to be kept, never go: if they alone are too long the text is cut at 160 septets.
 */
export function fitOneSegment(pieces: readonly MessagePiece[], separator = ' '): FittedMessage {
  const limit = smsLimits.gsm.alone;
  const forms = pieces.map((piece) => formsOf(piece));
  const joined = () =>
    forms
      .map(([form]) => form ?? '')
      .filter((form) => form !== '')
      .join(transliterate(separator));
  const full = joined();
  for (const index of leastImportantFirst(pieces)) {
    const { priority, isKept = priority <= keptPriority } = pieces[index]!;
    const fewest = isKept ? 1 : 0;
    while (septetCount(joined())! > limit && forms[index]!.length > fewest) forms[index]!.shift();
  }
  const fitted = joined();
  const text = cutTo(fitted, limit);
  return { text, septets: septetCount(text)!, isShortened: text !== full, isCut: text !== fitted };
}

function formsOf({ text, shorter = [] }: MessagePiece): string[] {
  return [text, ...shorter].map((form) => transliterate(form).trim());
}

function leastImportantFirst(pieces: readonly MessagePiece[]): number[] {
  return pieces
    .map((_, index) => index)
    .sort((first, second) => pieces[second]!.priority - pieces[first]!.priority || second - first);
}

/** The longest beginning of a GSM text that fits; a pair with ESC is kept whole. */
export function cutTo(text: string, limit: number): string {
  let used = 0;
  let kept = '';
  for (const character of text) {
    used += costOf(character, 'gsm');
    if (used > limit) return kept;
    kept += character;
  }
  return kept;
}
