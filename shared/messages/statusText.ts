import { type Alarm, type ConditionId, priorities } from '../alarms/alarm.ts';
import { standingStates } from '../alarms/lifecycle.ts';
import { formatTemperature } from '../units/temperature.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';
import { english } from './words/english.ts';
import { fill, type MessageWords } from './words/messageWords.ts';

/** One pile (or the yard, or a probe) as a text about the yard's standing tells it. */
export interface StatusLine {
  readonly name: string;
  readonly coreCelsius: number | null;
  /** Its most pressing alarm in words; null when none stands. */
  readonly alarm: {
    readonly condition: ConditionId;
    readonly code: string;
    readonly priority: Alarm['priority'];
  } | null;
}

const worstShown = 3;

/** Alarms that a text about the standing of things names: hidden and normal ones are left out. */
export const isStanding = ({ state }: Pick<Alarm, 'state'>): boolean => standingStates.includes(state);

/** The yard in one SMS: how many alarms stand, and the worst three piles: by their alarm, then by their heat. */
export function composeStatusText(
  yardName: string,
  lines: readonly StatusLine[],
  temperatureUnit: TemperatureUnit,
  words: MessageWords = english,
): string {
  const count = lines.filter(({ alarm }) => alarm !== null).length;
  const yard = yardName.trim().slice(0, 20);
  const opening =
    count === 0 ? fill(words.status.allWell, { yard }) : fill(words.status.standing, { yard, count });
  const worst = lines.toSorted(byTrouble).slice(0, worstShown);
  const pieces: MessagePiece[] = worst.map((line, index) => ({
    text: `${lineText(line, temperatureUnit, 18, words)}.`,
    shorter: [`${lineText(line, temperatureUnit, 8, words)}.`],
    priority: index + 2,
  }));
  const more = lines.length - worst.length;
  const rest = more > 0 ? fill(words.status.andMore, { count: more }) : '';
  return fitOneSegment([{ text: opening, priority: 1 }, ...pieces, { text: rest, priority: 9 }]).text;
}

function lineText(
  { name, coreCelsius, alarm }: StatusLine,
  unit: TemperatureUnit,
  longest: number,
  { status: words, conditions }: MessageWords,
): string {
  const temperature =
    coreCelsius === null ? words.noReading : formatTemperature(coreCelsius, { unit, decimals: 0 });
  const trouble = alarm === null ? '' : ` ${conditions[alarm.condition]} ${alarm.code}`;
  return fill(words.pile, { name: name.trim().slice(0, longest), temperature, alarm: trouble });
}

function byTrouble(a: StatusLine, b: StatusLine): number {
  const rank = ({ alarm }: StatusLine) =>
    alarm === null ? priorities.length : priorities.indexOf(alarm.priority);
  return rank(a) - rank(b) || (b.coreCelsius ?? -273) - (a.coreCelsius ?? -273);
}
