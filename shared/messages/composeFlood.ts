import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { english } from './words/english.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** Many alarms told in one text. */
export interface FloodText {
  readonly yardName: string;
  /** What each alarm is, most pressing first: "core too hot". At least one. */
  readonly whats: readonly string[];
  /** Name of the pile or probe of the first. */
  readonly firstName: string;
  /** Where the list of alarms is; null: the text only says to look. */
  readonly link: string | null;
}

/** One text, one SMS, for many alarms: how many, of which kinds, where to look first, where the list is. */
export function composeFloodText(
  { yardName, whats, firstName, link }: FloodText,
  { flood: words }: MessageWords = english,
): string {
  const count = whats.length;
  const kinds = kindsOf(whats);
  const list = link === null ? words.openList : fill(words.link, { link });
  const pieces: MessagePiece[] = [
    { text: `${yardName.trim().slice(0, 24)}:`, priority: 1 },
    { text: fill(count === 1 ? words.one : words.many, { count }), priority: 1 },
    { text: `${kinds.join(', ')}.`, priority: 4, shorter: shorterKinds(kinds, words) },
    {
      text: fill(words.lookFirst, { name: firstName.trim().slice(0, 24), what: whats[0] ?? '' }),
      priority: 2,
    },
    { text: list, priority: 3, shorter: [words.openList] },
  ];
  return fitOneSegment(pieces).text;
}

/** "9 probe silent", the most frequent first. */
function kindsOf(whats: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const what of whats) counts.set(what, (counts.get(what) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a).map(([what, count]) => `${count} ${what}`);
}

function shorterKinds(kinds: readonly string[], words: MessageWords['flood']): string[] {
  return [3, 2, 1]
    .filter((most) => most < kinds.length)
    .map((most) => fill(words.andOthers, { kinds: kinds.slice(0, most).join(', ') }));
}
