import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { septetCount, smsLimits } from './gsm.ts';
import { transliterate } from './transliterate.ts';
import { english } from './words/english.ts';
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
  /** Address of the alarm list; null: the text says to see the wall. */
  readonly link: string | null;
  /** Time of day from which the next texts go; null when none is held. */
  readonly nextTime: string | null;
}

/** Several alarms in one text, one SMS: each by name where there is room, else how many, of which kinds, where to look first, when there will be more. */
export function composeSeveralText(text: SeveralText, { several: words }: MessageWords = english): string {
  return (text.why === 'group' ? eachByName(text, words) : null) ?? inKinds(text, words);
}

/** Each with its code, where they all fit; else null. */
function eachByName({ yardName, alarms, link }: SeveralText, words: MessageWords['several']): string | null {
  const opening = fill(words.minute, { yard: yardName.trim().slice(0, 24), count: alarms.length });
  const each = alarms.map((alarm) => fill(words.each, { ...alarm, name: alarm.name.trim().slice(0, 18) }));
  const list = link === null ? words.seeWall : fill(words.seeLink, { link });
  const pieces = [
    { text: `${opening} ${each.join('; ')}.`, priority: 1 },
    { text: list, priority: 2, shorter: [words.seeWall] },
  ];
  const whole = transliterate(pieces[0]!.text);
  return septetCount(whole)! > smsLimits.gsm.alone ? null : fitOneSegment(pieces).text;
}

function inKinds(text: SeveralText, words: MessageWords['several']): string {
  const { alarms, link, nextTime, why } = text;
  const kinds = kindsOf(alarms.map(({ what }) => what));
  const opening = why === 'morning' ? words.morning : words.more;
  const say = (some: readonly string[]) =>
    fill(opening, {
      yard: text.yardName.trim().slice(0, 24),
      count: alarms.length,
      kinds: some.join(', ') + (some.length < kinds.length ? '...' : ''),
    });
  const shorter = [3, 2, 1].filter((most) => most < kinds.length).map((most) => say(kinds.slice(0, most)));
  const [first] = alarms;
  const list = link === null ? words.seeWall : fill(words.seeLink, { link });
  const pieces: MessagePiece[] = [
    { text: say(kinds), priority: 1, shorter },
    {
      text: first === undefined ? '' : fill(words.worst, { ...first, name: first.name.trim().slice(0, 18) }),
      priority: 2,
    },
    { text: nextTime === null ? '' : fill(words.nextTexts, { time: nextTime }), priority: 3 },
    { text: list, priority: 4, shorter: [words.seeWall] },
  ];
  return fitOneSegment(pieces).text;
}

/** "9 probe silent", the most frequent first. */
function kindsOf(whats: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const what of whats) counts.set(what, (counts.get(what) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a).map(([what, count]) => `${count} ${what}`);
}
