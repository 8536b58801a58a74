import type { Priority } from '../../../shared/alarms/alarm.ts';
import type { Telling } from '../../../shared/messages/plan.ts';
import type { Wordings } from '../../../shared/messages/wordings.ts';
import type { MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { ChannelKind, MessageKind, NewMessage, Records } from '../../records/port.ts';
import { readWordings } from '../wordsFor.ts';

const hourMs = 3_600_000;

/** A yard with its plan and people, read at one time. */
export interface YardDuty {
  readonly yard: Yard;
  readonly wordings: Wordings;
  readonly telling: Telling<ChannelKind>;
}

export async function readYardDuty(
  records: Records,
  yard: Yard,
  nowMs: number,
  textChannel: ChannelKind,
): Promise<YardDuty> {
  const [people, ways, { plan }, wordings] = await Promise.all([
    records.people.list(yard.id),
    records.ways.list(yard.id),
    records.duty.current(yard.id),
    readWordings(records, yard.id),
  ]);
  return { yard, wordings, telling: { people, ways, plan, timeZone: yard.timeZone, nowMs, textChannel } };
}

/** Where one message to a person goes that has no priority of its own to choose by: the phone, else another way. */
export function oneWayTo(
  person: Person,
  { ways, textChannel }: Telling<ChannelKind>,
  except: ChannelKind | null = null,
): { readonly channel: ChannelKind; readonly address: string } | null {
  if (person.disabled) return null;
  if (person.phone !== null && person.receivesTexts && textChannel !== except)
    return { channel: textChannel, address: person.phone };
  const own = ways.filter(({ personId, goneMs }) => personId === person.id && goneMs === null);
  return own.find(({ channel }) => channel !== except) ?? null;
}

export const ownersOf = ({ telling }: YardDuty): Person[] =>
  telling.people.filter(({ role, disabled }) => role === 'owner' && !disabled);

export interface Note {
  readonly kind: MessageKind;
  /** The same for the same thing, whenever it is tried. */
  readonly key: string;
  readonly text: (words: MessageWords) => string;
  readonly priority: Priority;
  readonly notBeforeMs?: number;
  readonly goodForHours: number;
}

/** A note about no alarm in particular, to each person who can be reached, by one way. */
export function notesTo(
  people: readonly Person[],
  { yard, telling, wordings }: YardDuty,
  note: Note,
  except: ChannelKind | null = null,
): NewMessage[] {
  const { nowMs } = telling;
  const notBeforeMs = Math.max(nowMs, note.notBeforeMs ?? nowMs);
  return people.flatMap((person) => {
    const way = oneWayTo(person, telling, except);
    if (way === null) return [];
    const { channel, address } = way;
    return {
      ...{ yardId: yard.id, personId: person.id, channel, address },
      text: note.text(wordings(person.language)),
      ...{ pileId: null, alarmId: null, occurrence: null, answerLink: null },
      ...{ kind: note.kind, priority: note.priority, createdMs: nowMs, notBeforeMs },
      idempotencyKey: `${note.key}:${person.id}`,
      expiresMs: notBeforeMs + note.goodForHours * hourMs,
    };
  });
}
