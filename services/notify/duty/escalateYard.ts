import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { composeAlarmText } from '../../../shared/messages/compose.ts';
import { type Escalation, escalate, type Told } from '../../../shared/messages/escalate.ts';
import { goodForHours } from '../../../shared/messages/lifetime.ts';
import { type PlannedText, planFor, roundsFor } from '../../../shared/messages/plan.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { ConditionWords } from '../../../shared/rules/condition.ts';
import type { ChannelKind, Message, NewMessage, Records } from '../../records/port.ts';
import { hashAnswerToken, newAnswerToken } from '../../rules/port.ts';
import { aboutWhat } from '../gate/nameAlarm.ts';
import { oneWayTo, ownersOf, type YardDuty } from './reach.ts';

const hourMs = 3_600_000;
const usualHours = 12;
const linkHours = 72;
const asking: readonly Alarm['state'][] = ['unacknowledged', 'latched-unacknowledged'];

export interface EscalateOptions {
  readonly records: Records;
  readonly publicUrl: () => string | null;
  /** A text sent back to us is heard. */
  readonly canReply: boolean;
  /** What an alarm says to people; null when its subject is gone. */
  readonly wordsFor: (alarm: Alarm) => Promise<ConditionWords | null>;
}

/**
 * Texts that are due because nobody has answered: to the next people on duty, and at last to the owners. Everything is
 * worked out from the alarms and the messages about them, so a stop in between neither loses a step nor doubles one.
 */
export async function escalateYard(
  options: EscalateOptions,
  duty: YardDuty,
  retoldAlarms: ReadonlySet<string>,
): Promise<NewMessage[]> {
  const { records } = options;
  const standing = await records.alarms.list(duty.yard.id, { standingOnly: true });
  const open = standing.filter(({ id, state }) => asking.includes(state) && !retoldAlarms.has(id));
  const about = Map.groupBy(
    await records.messages.aboutAlarms(open.map(({ id }) => id)),
    ({ alarmId }) => alarmId,
  );
  const texts: NewMessage[] = [];
  for (const alarm of open) {
    const written = (about.get(alarm.id) ?? []).filter(({ occurrence }) => occurrence === alarm.occurrence);
    const rounds = roundsFor(alarm.priority, duty.telling);
    const { nowMs, plan } = duty.telling;
    const told = written.map((message) => toldBy(message, nowMs));
    const sinceMs = alarm.activeSinceMs ?? nowMs;
    if (told.length === 0 && rounds.length > 0 && !(await wasToldTogether(records, duty, sinceMs))) continue;
    const step = escalate({ priority: alarm.priority, sinceMs, told }, rounds, plan, nowMs);
    if (step === null) continue;
    // What the first text said to do, with the cause then most likely, is what the next one is told as well.
    const firstAction = written.findLast((message) => message.firstAction !== null)?.firstAction ?? null;
    texts.push(...(await textsOf(options, duty, alarm, step, { told, firstAction })));
  }
  return texts;
}

/**
 * Without a text of its own an alarm was told with others in a flood, or not at all yet: judgement is working off a backlog
 * and texts what still stands at its end. That is not to be overtaken by "nobody answers".
 */
async function wasToldTogether(
  records: Records,
  { yard, telling: { nowMs } }: YardDuty,
  sinceMs: number,
): Promise<boolean> {
  const written = await records.messages.between(yard.id, Math.max(sinceMs, nowMs - 24 * hourMs), nowMs + 1);
  return written.some(({ kind, alarmId }) => kind === 'alarm' && alarmId === null);
}

function toldBy({ personId, kind, createdMs, ...message }: Message, nowMs: number): Told {
  const step = kind === 'nobody-answers' ? 'owner' : kind === 'next-person' ? 'next' : 'raised';
  return { personId, step, writtenMs: createdMs, state: stateOf(message, nowMs) };
}

function stateOf(
  { state, heldFor, nextAttemptMs }: Pick<Message, 'state' | 'heldFor' | 'nextAttemptMs'>,
  nowMs: number,
): Told['state'] {
  if (state === 'failed' || state === 'expired') return 'failed';
  if (state !== 'waiting' && state !== 'sending') return 'gone';
  return heldFor === 'quiet' && nextAttemptMs > nowMs ? 'held' : 'underway';
}

type Opening = (words: MessageWords) => string;

interface StepText {
  readonly kind: 'next-person' | 'nobody-answers';
  readonly opening: Opening;
  /** As the first text said; null where it is not known. */
  readonly firstAction: string | null;
}

async function textsOf(
  options: EscalateOptions,
  duty: YardDuty,
  alarm: Alarm,
  step: Escalation,
  { told, firstAction }: { readonly told: readonly Told[]; readonly firstAction: string | null },
): Promise<NewMessage[]> {
  const names = (ids: Iterable<string>) =>
    [...new Set(ids)].map((id) => duty.telling.people.find((one) => one.id === id)?.name ?? '?');
  const toldNames = names(told.map(({ personId }) => personId));
  if (step.kind === 'next') {
    const opening: Opening = ({ alarm: words }) =>
      fill(words.nextPerson, { names: toldNames.join(', ').slice(0, 30) || '?' });
    const planned = step.personIds.flatMap((id) => planFor(alarm, id, 'next', duty.telling));
    return write(options, duty, alarm, planned, { kind: 'next-person', opening, firstAction });
  }
  const count = toldNames.length;
  const opening: Opening = ({ alarm: words }) =>
    count === 0 ? words.nobodyYet : fill(words.nobodyAnswers, { count });
  const planned = toOwners(duty, alarm, step.round);
  return write(options, duty, alarm, planned, { kind: 'nobody-answers', opening, firstAction });
}

/** Owners are told whatever priority they otherwise want: somebody has to be. */
function toOwners(duty: YardDuty, { id, occurrence }: Alarm, round: number): PlannedText<ChannelKind>[] {
  return ownersOf(duty).flatMap((person) => {
    const way = oneWayTo(person, duty.telling);
    return way === null
      ? []
      : { person, ...way, idempotencyKey: `${id}:${occurrence}:nobody${round}:${person.id}` };
  });
}

async function write(
  { records, publicUrl, wordsFor, canReply }: EscalateOptions,
  { yard, telling, wordings }: YardDuty,
  alarm: Alarm,
  planned: readonly PlannedText<ChannelKind>[],
  { kind, opening, firstAction }: StepText,
): Promise<NewMessage[]> {
  const { name, place, pileId } = await aboutWhat(records, alarm);
  const said = await wordsFor(alarm);
  const { nowMs } = telling;
  const address = publicUrl();
  return planned.map(({ person, channel, address: to, idempotencyKey }) => {
    const token = newAnswerToken();
    const words = wordings(person.language);
    const about = {
      ...{
        name,
        place,
        opening: opening(words),
        code: alarm.code,
        measured: null,
        temperatureUnit: yard.temperatureUnit,
      },
      what: said?.what ?? words.conditions[alarm.condition],
      lastedMinutes: alarm.activeSinceMs === null ? null : (nowMs - alarm.activeSinceMs) / 60_000,
      firstAction: firstAction ?? said?.firstAction ?? '',
      link: address === null ? null : `${address}/a/${token}`,
      canReply,
    };
    const text = composeAlarmText(about, words);
    const { id: alarmId, occurrence, priority, condition } = alarm;
    return {
      ...{ yardId: yard.id, pileId, alarmId, occurrence, personId: person.id, channel, address: to },
      ...{ idempotencyKey, kind, text, priority, createdMs: nowMs, notBeforeMs: nowMs },
      firstAction: about.firstAction,
      expiresMs: nowMs + goodForHours(condition, usualHours) * hourMs,
      answerLink: {
        ...{ tokenHash: hashAnswerToken(token), alarmId, occurrence, personId: person.id },
        expiresMs: nowMs + linkHours * hourMs,
      },
    };
  });
}
