import { fitOneSegment } from './fitOneSegment.ts';
import { english } from './words/english.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** A week of a yard's alarms, as the text to its owners says it. */
export interface DigestText {
  readonly yardName: string;
  readonly texts: number;
  readonly activations: number;
  /** Texts that asked for something, and how many of them led to something done. */
  readonly texted: number;
  readonly acted: number;
  /** The alarm that gave most texts; null when there was none. */
  readonly worst: { readonly name: string; readonly what: string; readonly count: number } | null;
  /** Alarms standing for longer than a day now. */
  readonly stale: number;
  readonly link: string | null;
}

/** The week in one SMS. */
export function composeDigestText(text: DigestText, { digest: words }: MessageWords = english): string {
  const yard = text.yardName.trim().slice(0, 24);
  const link = text.link === null ? '' : fill(words.link, { link: text.link });
  if (text.texts === 0 && text.activations === 0)
    return fitOneSegment([
      { text: fill(words.quietWeek, { yard }), priority: 1 },
      { text: link, priority: 2 },
    ]).text;
  const { texts, activations, texted, acted, worst, stale } = text;
  return fitOneSegment([
    { text: fill(words.counts, { yard, texts, activations }), priority: 1 },
    { text: texted === 0 ? '' : fill(words.acted, { acted, texted }), priority: 2 },
    {
      text: worst === null ? '' : fill(words.worst, { ...worst, name: worst.name.slice(0, 18) }),
      priority: 3,
    },
    { text: stale === 0 ? '' : fill(words.stale, { count: stale }), priority: 4 },
    { text: link, priority: 5 },
  ]).text;
}
