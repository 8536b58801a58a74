import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { kindsOf } from './kindsOf.ts';
import { english } from './words/english.ts';
import { phrase } from './words/languages.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** Many alarms told in one text. */
export interface FloodText {
  readonly yardName: string;
  /** What each alarm is, most pressing first: "core too hot". At least one. */
  readonly whats: readonly string[];
  /** Name of the pile or probe of the first. */
  readonly firstName: string;
  /** What to do first about the first, in English as its condition says it; empty where nothing is known. */
  readonly firstAction: string;
  /** Where the list of alarms is; null: the text only says to look. */
  readonly link: string | null;
}

/**
 * One text, one SMS, for many alarms: how many, of which kinds, where to look first and what to do there, where the list
 * is. The number and what to do are never given up.
 */
export function composeFloodText(text: FloodText, words: MessageWords = english): string {
  const { yardName, whats, link } = text;
  const { flood } = words;
  const kinds = kindsOf(whats);
  const list = link === null ? flood.openList : fill(flood.link, { link });
  const count = (form: string) => fill(form, { count: whats.length });
  const isOne = whats.length === 1;
  const pieces = (isKept: boolean): MessagePiece[] => [
    { text: `${yardName.trim().slice(0, 24)}:`, priority: 1, shorter: [`${yardName.trim().slice(0, 10)}:`] },
    {
      text: count(isOne ? flood.one : flood.many),
      priority: 6,
      shorter: [count(isOne ? flood.oneShort : flood.manyShort)],
      isKept: true,
    },
    { text: `${kinds.join(', ')}.`, priority: 3, shorter: shorterKinds(kinds, flood) },
    lookFirst(text, flood),
    { text: phrase(words, text.firstAction), priority: 1 },
    { text: list, priority: 5, shorter: [flood.openList], isKept },
  ];
  // Where the list is, is said in few words rather than not at all.
  const fitted = fitOneSegment(pieces(true));
  return fitted.isCut ? fitOneSegment(pieces(false)).text : fitted.text;
}

function lookFirst({ firstName, whats }: FloodText, words: MessageWords['flood']): MessagePiece {
  const name = firstName.trim().slice(0, 24);
  const shorter = [fill(words.lookFirstShort, { name })];
  return { text: fill(words.lookFirst, { name, what: whats[0] ?? '' }), priority: 4, shorter, isKept: true };
}

function shorterKinds(kinds: readonly string[], words: MessageWords['flood']): string[] {
  return [3, 2, 1]
    .filter((most) => most < kinds.length)
    .map((most) => fill(words.andOthers, { kinds: kinds.slice(0, most).join(', ') }));
}
