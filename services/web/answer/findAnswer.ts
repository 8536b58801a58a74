import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { fill } from '../../../shared/messages/words/messageWords.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { hashToken } from '../sign-in/tokens.ts';
import { isUnacknowledged } from '../views/alarmView.ts';
import { answerPageWords } from './pageWords.ts';

/** What an answer link leads to. */
export type Answer =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'expired'; readonly person: Person }
  | {
      readonly kind: 'open' | 'done' | 'superseded' | 'hidden';
      readonly alarm: Alarm;
      readonly person: Person;
      readonly yard: Yard;
      /** Where the alarm is: "Heap 4, bay 3". */
      readonly where: string;
      /** What the newest text to the person said to do first, in English; null when there was none. */
      readonly firstAction: string | null;
    };

/**
 * Looks a link from a text up. It is good for one occurrence of one alarm and for the person it was sent to; whether it
 * was used is told by the alarm itself, so that a link cannot be used up without the alarm being acknowledged.
 */
export async function findAnswer(house: House, token: string): Promise<Answer> {
  const link = await house.records.alarms.findAnswerLink(hashToken(token));
  if (link === null) return { kind: 'unknown' };
  const [alarm, person] = await Promise.all([
    house.records.alarms.get(link.alarmId),
    house.records.people.get(link.personId),
  ]);
  if (alarm === null || person === null || person.disabled) return { kind: 'unknown' };
  if (house.clock.nowMs() >= link.expiresMs) return { kind: 'expired', person };
  const yard = await house.records.yards.get(alarm.yardId);
  if (yard === null) return { kind: 'unknown' };
  const kind = alarm.occurrence === link.occurrence ? kindNow(alarm) : 'superseded';
  const firstAction = await toldToDo(house, alarm, person);
  return { kind, alarm, person, yard, firstAction, where: await whereIs(house, alarm, yard, person) };
}

function kindNow(alarm: Alarm): 'open' | 'done' | 'hidden' {
  if (isUnacknowledged(alarm)) return 'open';
  const isHidden = ['shelved', 'suppressed', 'out-of-service'].includes(alarm.state);
  return isHidden ? 'hidden' : 'done';
}

/** The page must not say something else than the text it was reached from. */
async function toldToDo(house: House, { id, occurrence }: Alarm, person: Person): Promise<string | null> {
  const told = await house.records.messages.aboutAlarms([id]);
  const ours = told.filter((text) => text.occurrence === occurrence && text.personId === person.id);
  return ours.findLast(({ firstAction }) => firstAction !== null)?.firstAction ?? null;
}

async function whereIs(house: House, alarm: Alarm, yard: Yard, { language }: Person): Promise<string> {
  const { kind, id } = alarm.subject;
  if (kind === 'yard') return yard.name;
  if (kind === 'probe') {
    const label = (await house.records.probes.get(id))?.label ?? id;
    return fill(answerPageWords[language].probe, { label });
  }
  const pile = await house.records.piles.get(id);
  return pile === null ? yard.name : `${pile.name}, ${pile.place}`;
}
