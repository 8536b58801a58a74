import type { Measured } from '../rules/condition.ts';
import { formatTemperature } from '../units/temperature.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { type FittedTemplate, fitTemplate, type TemplateValues } from './fitTemplate.ts';
import { parseTemplate } from './template.ts';
import { english } from './words/english.ts';
import { phrase } from './words/languages.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** What a text about an alarm says. `what` and `firstAction` are the sentences of the condition, in English. */
export interface AlarmText {
  /** Name of the pile, probe or yard. */
  readonly name: string;
  /** Where it stands; empty for a yard. */
  readonly place: string;
  /** "core too hot" */
  readonly what: string;
  readonly measured: Measured | null;
  readonly temperatureUnit: TemperatureUnit;
  /** How long it has been so; null when that is not known. */
  readonly lastedMinutes: number | null;
  readonly firstAction: string;
  /** Short code people answer with. */
  readonly code: string;
  /** Address that acknowledges; null when no address of this yard is known. */
  readonly link: string | null;
  /** A text sent back is heard. */
  readonly canReply?: boolean;
  /** Said first, when there is more to say than the alarm: that nobody answered. */
  readonly opening?: string;
}

const longestName = 18;
const longestPlace = 14;

/**
 * What an alarm's text gives up when it is too long, first to last: the place goes first because a person on duty knows
 * where a pile stands, but not how far over its limit it is. What to do first and the code are never given up.
 */
export const alarmGivesUp = ['place', 'lasted', 'limit', 'answer', 'value', 'name', 'opening'] as const;

/** One text, one SMS: place, name, what, value and limit with unit, how long, first action, how to acknowledge. */
export function composeAlarmText(text: AlarmText, words: MessageWords = english): string {
  return fitAlarmText(text, words).text;
}

/** The same, with what it was before it was made to fit. */
export function fitAlarmText(text: AlarmText, words: MessageWords): FittedTemplate {
  return fitTemplate(parseTemplate(words.alarm.text), alarmValues(text, words), alarmGivesUp);
}

/** What a text about an alarm fills in, each in full and then in shorter ways. */
export function alarmValues(text: AlarmText, words: MessageWords): TemplateValues {
  const { measured, lastedMinutes } = text;
  const say = (value: number) => valueWords(measured!, value, text, words);
  const duration = lastedMinutes === null ? null : durationWords(lastedMinutes, words);
  return {
    opening: [text.opening ?? ''],
    place: [shorten(text.place, longestPlace)],
    name: [shorten(text.name, longestName), shorten(text.name, 10)],
    what: [phrase(words, text.what)],
    value: [measured === null ? '' : say(measured.value)],
    limit: [measured === null ? '' : fill(words.alarm.limit, { limit: say(measured.limit) })],
    lasted: [duration === null ? '' : fill(words.alarm.lasted, { duration })],
    action: [phrase(words, text.firstAction)],
    answer: answerForms(text, words),
  };
}

/** `35 min`, `3 h`, `2 d`. */
export function durationWords(
  minutes: number,
  { durations }: Pick<MessageWords, 'durations'> = english,
): string {
  const say = (template: string, count: number) => fill(template, { count: Math.round(count) });
  if (minutes < 120) return say(durations.minutes, minutes);
  if (minutes < 48 * 60) return say(durations.hours, minutes / 60);
  return say(durations.days, minutes / 1440);
}

/** How to say "seen", the fullest first. A text back needs no internet on the phone, so the link goes before it. */
function answerForms({ code, link, canReply = false }: AlarmText, { alarm }: MessageWords): string[] {
  const forms = [
    ...(link !== null && canReply ? [alarm.replyOrLink] : []),
    ...(canReply ? [alarm.reply] : []),
    ...(link !== null && !canReply ? [alarm.link] : []),
    ...(canReply ? [] : [alarm.markSeen]),
    alarm.codeOnly,
  ];
  return forms.map((form) => fill(form, { code, link: link ?? '' }));
}

function shorten(text: string, longest: number): string {
  const trimmed = text.trim();
  return trimmed.length <= longest ? trimmed : `${trimmed.slice(0, longest - 1).trimEnd()}.`;
}

function valueWords(
  measured: Measured,
  value: number,
  { temperatureUnit }: AlarmText,
  words: MessageWords,
): string {
  switch (measured.unit) {
    case 'C':
      return formatTemperature(value, { unit: temperatureUnit, decimals: 1 }).replace('.0 ', ' ');
    case 'fraction':
      return `${Math.round(value * 100)} %`;
    case 'min':
      return durationWords(value, words);
  }
}
