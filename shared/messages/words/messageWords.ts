import type { ConditionId } from '../../alarms/alarm.ts';
import type { JournalKind } from '../../yard/journal.ts';

/**
 * Every word a text to a person is made of, in one place, so that it can be said in another language: each object of
 * this shape is one (`english.ts`, `german.ts`). `{names}` stand for what is filled in and may be put in any order; a part
 * in [brackets] goes when there is nothing to fill in or no room for it. What to do about a condition is said in English
 * where it is judged; `phrases` turns those sentences into the language.
 */
export interface MessageWords {
  readonly alarm: {
    /** The whole text about an alarm. */
    readonly text: string;
    readonly limit: string;
    readonly lasted: string;
    readonly markSeen: string;
    readonly codeOnly: string;
    readonly link: string;
    readonly reply: string;
    readonly replyOrLink: string;
    readonly nextPerson: string;
    readonly nobodyAnswers: string;
    /** The same where it is not known who was told. */
    readonly nobodyYet: string;
  };
  /** A pile has come to something worth knowing. */
  readonly milestone: { readonly text: string };
  readonly durations: { readonly minutes: string; readonly hours: string; readonly days: string };
  readonly flood: {
    readonly one: string;
    readonly many: string;
    readonly oneShort: string;
    readonly manyShort: string;
    readonly lookFirst: string;
    readonly lookFirstShort: string;
    readonly andOthers: string;
    readonly openList: string;
    readonly link: string;
  };
  readonly several: {
    readonly morning: string;
    readonly more: string;
    readonly minute: string;
    readonly each: string;
    /** What to do first, where each was named before. */
    readonly todo: string;
    readonly worst: string;
    readonly worstShort: string;
    readonly seeWall: string;
    readonly seeLink: string;
    readonly nextTexts: string;
    readonly nextTextsShort: string;
  };
  readonly answers: {
    readonly help: string;
    readonly seen: string;
    readonly seenByOther: string;
    readonly stopped: string;
    readonly done: string;
    readonly doneWhat: string;
    readonly notAPile: string;
    readonly noQuietFire: string;
    readonly nothingStands: string;
    readonly unknownCode: string;
    readonly whichOne: string;
    readonly notAllowed: string;
    readonly tooLong: string;
    readonly refused: string;
    readonly deeds: Readonly<Record<string, string>>;
  };
  readonly status: {
    readonly allWell: string;
    readonly noReading: string;
    readonly pile: string;
    readonly andMore: string;
    readonly standing: string;
  };
  readonly channels: Readonly<Record<'sms-http' | 'sms-modem' | 'email' | 'web-push' | 'webhook', string>>;
  /** To owners, about a text that will never arrive. */
  readonly undelivered: {
    readonly owner: string;
    readonly instead: string;
    readonly checkNumber: string;
    readonly checkAddress: string;
  };
  readonly watch: {
    readonly allWell: string;
    readonly notWell: string;
    readonly wasAway: string;
    readonly missedAlarms: string;
    readonly missedTexts: string;
    readonly missedNothing: string;
    readonly channelTrouble: string;
  };
  readonly tests: { readonly person: string; readonly channel: string };
  readonly digest: {
    readonly counts: string;
    readonly acted: string;
    readonly worst: string;
    readonly stale: string;
    readonly quietWeek: string;
    readonly link: string;
    readonly month: string;
    readonly aimsMet: string;
  };
  /** What a condition is called where it is named in few words: in answers and in lists of several. */
  readonly conditions: Readonly<Record<ConditionId, string>>;
  /** Sentences of conditions and advice by their English, digits as `#`; what is missing stays English. */
  readonly phrases: Readonly<Record<string, string>>;
  /** Words people text back with, lower case. Every language's are understood from everybody. */
  readonly replies: {
    readonly verbs: Readonly<Record<ReplyVerb, readonly string[]>>;
    readonly deeds: Readonly<Partial<Record<JournalKind, readonly string[]>>>;
    /** Whoever writes one of these means something we would get wrong. */
    readonly negations: readonly string[];
    readonly units: Readonly<Record<'m' | 'h' | 'd', readonly string[]>>;
  };
}

export type ReplyVerb = 'seen' | 'stop' | 'done' | 'status' | 'help';

/**
 * A template with its names filled in.
 * @throws RangeError when a name of the template has no value: a mistake of ours, or of a translation
 */
export function fill(template: string, values: Readonly<Record<string, string | number>>): string {
  return template.replaceAll(/\{(\w+)\}/g, (_whole, name: string) => {
    const value = values[name];
    if (value === undefined) throw new RangeError(`template "${template}": there is no value for {${name}}`);
    return String(value);
  });
}
