import { createHash } from 'node:crypto';
import { fitOneSegment } from '../../../shared/messages/fitOneSegment.ts';
import { quietUntilMs } from '../../../shared/messages/quietHours.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { ChannelKind, Message, MessageKind, NewMessage, Records } from '../../records/port.ts';
import { insteadKeyOf } from '../gate/insteadKey.ts';
import { notesTo, ownersOf, type YardDuty } from './reach.ts';

const dayMs = 86_400_000;
/** What failed before this is history. */
const lookBackMs = dayMs / 2;
/** Tried so often and still waiting for so long, something pressing is told by another way as well. */
const attemptsInVain = 3;
const waitedInVainMs = 2 * 60_000;

/** Somebody has to know of these; the others can be left. */
const retold: readonly MessageKind[] = [
  'alarm',
  'several',
  'next-person',
  'nobody-answers',
  'morning',
  'service',
];

export interface Undelivered {
  readonly texts: readonly NewMessage[];
  /** Alarms that are being told by another way just now: nobody else need be woken for them yet. */
  readonly retoldAlarms: ReadonlySet<string>;
}

/**
 * Texts that will never arrive (refused, or reported as lost by the network), and pressing ones that do not get away: each
 * is told to the same person by another of their ways, and owners hear of an address that does not work. Where there is no
 * other way, the next person's turn comes at once (`escalate`). Worked out from the messages; keys make it once.
 */
export async function undeliveredTexts(
  records: Records,
  duty: YardDuty,
  channels: readonly ChannelKind[],
): Promise<Undelivered> {
  const { nowMs } = duty.telling;
  const found = await records.messages.inTrouble(duty.yard.id, nowMs - lookBackMs, attemptsInVain);
  const texts: NewMessage[] = [];
  const retoldAlarms = new Set<string>();
  for (const message of found.filter((one) => needsAnotherWay(one, nowMs))) {
    const person = duty.telling.people.find(({ id }) => id === message.personId);
    if (person === undefined) continue;
    const way = await anotherWay(records, duty, channels, message, person);
    if (way !== null) {
      texts.push(instead(message, way, nowMs));
      if (message.alarmId !== null) retoldAlarms.add(message.alarmId);
    }
    if (message.state === 'failed') texts.push(...(await ownerNotes(records, duty, message, person, way)));
  }
  return { texts: await unwritten(records, texts), retoldAlarms };
}

function needsAnotherWay(
  { kind, state, priority, createdMs, idempotencyKey }: Message,
  nowMs: number,
): boolean {
  // About a failure: another failure of that must not go round in circles.
  if (!retold.includes(kind) || idempotencyKey.startsWith('undelivered:')) return false;
  if (state === 'failed') return true;
  return (priority === 'highest' || priority === 'high') && nowMs - createdMs >= waitedInVainMs;
}

interface WayTo {
  readonly channel: ChannelKind;
  readonly address: string;
}

/** A way to the person that this alarm has not gone yet; null where there is none. */
async function anotherWay(
  records: Records,
  { telling }: YardDuty,
  channels: readonly ChannelKind[],
  message: Message,
  person: Person,
): Promise<WayTo | null> {
  if (person.disabled) return null;
  const { alarmId, occurrence, idempotencyKey } = message;
  // What tells of no one alarm is told by one other way; there is no telling which ones it went by before.
  if (alarmId === null && idempotencyKey.startsWith('instead:')) return null;
  const told = alarmId === null ? [message] : await records.messages.aboutAlarms([alarmId]);
  const used = told.filter((one) => one.personId === person.id && one.occurrence === occurrence);
  if (used.some((one) => one.idempotencyKey.startsWith(insteadKeyOf(message.id)))) return null;
  const isUsed = (way: WayTo) =>
    used.some(({ channel, address }) => channel === way.channel && address === way.address);
  return waysOf(person, telling, channels).find((way) => !isUsed(way)) ?? null;
}

/** All ways to a person, whatever priority they are kept for: texts first, by each channel that sends such. */
function waysOf(
  { id, phone, receivesTexts }: Person,
  { ways }: YardDuty['telling'],
  channels: readonly ChannelKind[],
): WayTo[] {
  const texting = channels.filter((channel) => channel === 'sms-http' || channel === 'sms-modem');
  const byPhone =
    phone === null || !receivesTexts ? [] : texting.map((channel) => ({ channel, address: phone }));
  const others = ways.filter(({ personId, goneMs }) => personId === id && goneMs === null);
  return [...byPhone, ...others.filter(({ channel }) => channels.includes(channel))];
}

function instead(message: Message, { channel, address }: WayTo, nowMs: number): NewMessage {
  const { yardId, pileId, alarmId, occurrence, personId, text, priority, kind, expiresMs } = message;
  const { firstAction } = message;
  return {
    ...{ yardId, pileId, alarmId, occurrence, personId, text, priority, kind, channel, address },
    idempotencyKey: `${insteadKeyOf(message.id)}${channel}`,
    ...(firstAction === null ? {} : { firstAction }),
    ...{ createdMs: nowMs, notBeforeMs: nowMs, expiresMs: Math.max(expiresMs, nowMs + dayMs / 24) },
    // The link in the text stays good: it is kept by what stands in it, and acts for the same person.
    answerLink: null,
  };
}

/** To owners, once a day for each address; to the person themselves only by another channel. */
async function ownerNotes(
  records: Records,
  duty: YardDuty,
  message: Message,
  person: Person,
  way: WayTo | null,
): Promise<NewMessage[]> {
  const { channel, address, id } = message;
  // A browser that ended its subscription is nothing to tell of while there is another way.
  if (channel === 'web-push' && way !== null) return [];
  const detail = (await records.messages.attempts(id)).at(-1)?.detail ?? '';
  const text = ({ undelivered: words, channels }: MessageWords) => {
    const values = { yard: duty.yard.name.trim().slice(0, 20), name: person.name.slice(0, 18), detail };
    const isPhone = channel === 'sms-http' || channel === 'sms-modem';
    return fitOneSegment([
      { text: fill(words.owner, { ...values, address: endOf(address) }), priority: 1 },
      { text: way === null ? '' : fill(words.instead, { channel: channels[way.channel] }), priority: 3 },
      { text: isPhone ? words.checkNumber : words.checkAddress, priority: 2 },
    ]).text;
  };
  const day = Math.floor((message.finishedMs ?? message.createdMs) / dayMs);
  const hash = createHash('sha256').update(`${channel} ${address}`).digest('hex').slice(0, 16);
  const { telling, yard } = duty;
  // What could wait for the morning wakes nobody for its number's sake.
  const notBeforeMs = quietUntilMs(telling.plan, yard.timeZone, message.priority, telling.nowMs);
  const note = {
    ...{ kind: 'service' as const, priority: 'high' as const, text, goodForHours: 24 },
    key: `undelivered:${hash}:${day}`,
    ...(notBeforeMs === null ? {} : { notBeforeMs }),
  };
  const [others, themselves] = [
    ownersOf(duty).filter((owner) => owner.id !== person.id),
    ownersOf(duty).filter((owner) => owner.id === person.id),
  ];
  return [...notesTo(others, duty, note), ...notesTo(themselves, duty, note, channel)];
}

/** Enough of an address to know which one it is. */
function endOf(address: string): string {
  return address.startsWith('{') ? 'browser' : `...${address.slice(-6)}`;
}

/** Those whose key is not in the outbox yet: written again they would change nothing, but look like news. */
async function unwritten(records: Records, texts: readonly NewMessage[]): Promise<NewMessage[]> {
  const known = await records.messages.knownKeys(texts.map(({ idempotencyKey }) => idempotencyKey));
  return texts.filter(({ idempotencyKey }) => !known.has(idempotencyKey));
}
