import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { septetCount, smsLimits } from './gsm.ts';
import { kindsOf } from './kindsOf.ts';
import { transliterate } from './transliterate.ts';
import { english } from './words/english.ts';
import { phrase } from './words/languages.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** One of the alarms told together. */
export interface OneOfSeveral {
  /** Pile, probe or yard. */
  readonly name: string;
  /** "core too hot" */
  readonly what: string;
  readonly code: string;
}

export interface SeveralText {
  readonly yardName: string;
  /** What they are told together for: the night is over, too many came in an hour, or all in one minute. */
  readonly why: 'morning' | 'cap' | 'group';
  /** Most pressing first; at least one. */
  readonly alarms: readonly OneOfSeveral[];
  /** What to do first about the most pressing, in English as its condition says it; empty where nothing is known. */
  readonly firstAction: string;
  /** Address of the alarm list; null: the text says to see the wall. */
  readonly link: string | null;
  /** Time of day from which the next texts go; null when none is held. */
  readonly nextTime: string | null;
}

const longestName = 18;
const longestYard = 24;

/**
 * Several alarms in one text, one SMS: each by name where there is room, else how many, of which kinds, where to look
 * first, when there will be more. What to do first about the most pressing is never given up.
 */
export function composeSeveralText(text: SeveralText, words: MessageWords = english): string {
  const action = phrase(words, text.firstAction);
  return (text.why === 'group' ? eachByName(text, action, words) : null) ?? inKinds(text, action, words);
}

/** Each with its code, where they all fit; else null. */
function eachByName(text: SeveralText, action: string, { several: words }: MessageWords): string | null {
  const { alarms, yardName } = text;
  const opening = fill(words.minute, { yard: yardName.trim().slice(0, longestYard), count: alarms.length });
  const each = alarms.map((alarm) => fill(words.each, { ...alarm, name: shortName(alarm) }));
  const todo = action === '' ? '' : fill(words.todo, { name: shortName(alarms[0]!), action });
  const kept = `${opening} ${each.join('; ')}. ${todo}`.trim();
  if (septetCount(transliterate(kept))! > smsLimits.gsm.alone) return null;
  return fitOneSegment([{ text: kept, priority: 1 }, listPiece(text, words, 2)]).text;
}

function inKinds(text: SeveralText, action: string, { several: words }: MessageWords): string {
  const { alarms, nextTime } = text;
  const [first] = alarms;
  const worst =
    first === undefined
      ? []
      : [
          fill(words.worst, { ...first, name: shortName(first) }),
          fill(words.worstShort, { ...first, name: shortName(first) }),
        ];
  const next =
    nextTime === null
      ? []
      : [words.nextTexts, words.nextTextsShort].map((form) => fill(form, { time: nextTime }));
  const pieces = (isKept: boolean): MessagePiece[] => [
    { ...inForms(openingForms(text, words)), priority: 3, isKept: true },
    { ...inForms(worst), priority: 2, isKept: true },
    { text: action, priority: 1 },
    { ...inForms(next), priority: 4, isKept },
    { ...listPiece(text, words, 5), isKept },
  ];
  // When there will be more, and where to look, are said in few words rather than not at all: kinds go before them.
  const fitted = fitOneSegment(pieces(true));
  return fitted.isCut ? fitOneSegment(pieces(false)).text : fitted.text;
}

/** How many and of which kinds, in ever fewer words: the number is always said. */
function openingForms({ alarms, why, yardName }: SeveralText, words: MessageWords['several']): string[] {
  const kinds = kindsOf(alarms.map(({ what }) => what));
  const count = alarms.length;
  const opening = why === 'morning' ? words.morning : words.more;
  const yard = yardName.trim().slice(0, longestYard);
  const most = [kinds.length, ...[3, 2, 1].filter((fewer) => fewer < kinds.length)];
  const named = most.map((shown) =>
    fill(opening, {
      yard,
      count,
      kinds: kinds.slice(0, shown).join(', ') + (shown < kinds.length ? '..' : ''),
    }),
  );
  return [
    ...named,
    fill(words.minute, { yard, count }),
    fill(words.minute, { yard: yard.slice(0, 10), count }),
  ];
}

function listPiece(
  { link }: SeveralText,
  { seeWall, seeLink }: MessageWords['several'],
  priority: number,
): MessagePiece {
  return { text: link === null ? seeWall : fill(seeLink, { link }), priority, shorter: [seeWall] };
}

function inForms([text = '', ...shorter]: readonly string[]): Pick<MessagePiece, 'text' | 'shorter'> {
  return { text, shorter };
}

const shortName = ({ name }: OneOfSeveral): string => name.trim().slice(0, longestName);
