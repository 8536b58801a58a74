import type { Measured } from '../rules/condition.ts';
import { formatTemperature } from '../units/temperature.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { english, fill } from './words.ts';

/** What a text about an alarm says. */
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
  /** Said first, when there is more to say than the alarm: that nobody answered. */
  readonly opening?: string;
}

const longestName = 18;
const longestPlace = 14;

/**
 * One text, one SMS: place, name, what, value and limit with unit, how long, first action, how to acknowledge. Too
 * long, it gives up first the place, then how long, then the limit, then the link for the code alone; never what to do
 * first. The place goes first because a person on duty knows where a pile stands, but not how far over its limit it is.
 */
export function composeAlarmText(text: AlarmText): string {
  const value = text.measured === null ? '' : ` ${valueWords(text.measured, text.measured.value, text)}`;
  const limit =
    text.measured === null
      ? ''
      : fill(english.alarm.limit, { limit: valueWords(text.measured, text.measured.limit, text) });
  const duration = text.lastedMinutes === null ? null : durationWords(text.lastedMinutes);
  const pieces: MessagePiece[] = [
    { text: text.opening ?? '', priority: 1 },
    { text: text.place.trim() === '' ? '' : `${shorten(text.place, longestPlace)},`, priority: 7 },
    { text: `${shorten(text.name, longestName)}:`, priority: 1 },
    { text: `${text.what}${value}`, priority: 1 },
    { text: limit, priority: 5 },
    { text: duration === null ? '' : fill(english.alarm.lasted, { duration }), priority: 6 },
    { text: '.', priority: 1 },
    { text: text.firstAction, priority: 1 },
    acknowledgement(text),
  ];
  return fitOneSegment(pieces).text.replace(/ \./, '.');
}

/** `35 min`, `3 h`, `2 d`. */
export function durationWords(minutes: number): string {
  const say = (template: string, count: number) => fill(template, { count: Math.round(count) });
  if (minutes < 120) return say(english.durations.minutes, minutes);
  if (minutes < 48 * 60) return say(english.durations.hours, minutes / 60);
  return say(english.durations.days, minutes / 1440);
}

function acknowledgement({ code, link }: AlarmText): MessagePiece {
  const { markSeen, codeOnly, link: withLink } = english.alarm;
  const byCode = fill(markSeen, { code });
  const short = fill(codeOnly, { code });
  if (link === null) return { text: byCode, priority: 2, shorter: [short] };
  return { text: fill(withLink, { code, link }), priority: 2, shorter: [byCode, short] };
}

function shorten(text: string, longest: number): string {
  const trimmed = text.trim();
  return trimmed.length <= longest ? trimmed : `${trimmed.slice(0, longest - 1).trimEnd()}.`;
}

function valueWords(measured: Measured, value: number, { temperatureUnit }: AlarmText): string {
  switch (measured.unit) {
    case 'C':
      return formatTemperature(value, { unit: temperatureUnit, decimals: 1 }).replace('.0 ', ' ');
    case 'fraction':
      return `${Math.round(value * 100)} %`;
    case 'min':
      return durationWords(value);
  }
}
