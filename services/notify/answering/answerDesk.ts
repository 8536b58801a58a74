import { createHash } from 'node:crypto';
import type { Logger } from 'pino';
import { parseAnswer } from '../../../shared/messages/answer.ts';
import { fitOneSegment } from '../../../shared/messages/fitOneSegment.ts';
import { isE164 } from '../../../shared/messages/phoneNumber.ts';
import type { MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { PileId, YardId } from '../../../shared/yard/yard.ts';
import type { ChannelKind, NewMessage, Records } from '../../records/port.ts';
import type { RulesPort } from '../../rules/port.ts';
import type { InboundText } from '../messageChannel.ts';
import { wordsFor } from '../wordsFor.ts';
import { carryOut, type Done } from './carryOut.ts';

const hourMs = 3_600_000;
/** Answers to one person in an hour; beyond it deeds are done without a word, or two machines would talk for ever. */
const mostAnswersAnHour = 20;
/** Where a gateway gives no reference, the same words from the same number within this time are one text. */
const sameTextMs = 5 * 60_000;

/** Where something came of what came in; a delivery report says only which message it is about, not whose. */
export type InboundChange =
  | { readonly yardId: YardId; readonly pileId: PileId | null }
  | { readonly yardId: null; readonly pileId: null };

export interface AnswerDeskOptions {
  readonly records: Records;
  readonly rules: () => Pick<RulesPort, 'act' | 'factsChanged'> | null;
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** Texts that came by a channel are answered by it. */
  readonly channel: ChannelKind;
  /** Something was answered or done: the outbox and the screens should be looked at. */
  readonly onChanged: (change: InboundChange) => void;
}

/**
 * Takes a text that came in, does what it asks and answers it. Only numbers of people of a yard are listened to; others
 * get no answer, so that nothing can be learnt or run up from outside. The same text passed on again is known by its
 * reference and does nothing; one that was cut off half way is gone through again, which is harmless.
 */
export function createAnswerDesk(options: AnswerDeskOptions): (text: InboundText) => Promise<void> {
  const { records, clock, logger } = options;
  return async function onText(inbound) {
    const people = isE164(inbound.from) ? await records.people.byPhone(inbound.from) : [];
    const [first] = people;
    if (first === undefined) {
      logger.warn(
        { reference: inbound.reference },
        'a text from a number nobody here has was left unanswered',
      );
      return;
    }
    const key = keyOf(inbound);
    const { from: address, text, receivedMs } = inbound;
    const row = { key, personId: first.id, address, text: text.slice(0, 2000), receivedMs };
    const taken = await records.inbound.take(row);
    if (taken.done) return;
    const rules = options.rules();
    if (rules === null) throw new Error('the rules have not started: the text is to come again');
    const said = new Map<string, MessageWords>();
    for (const person of people) said.set(person.id, await wordsFor(records, person));
    const wordsOf = ({ id }: Person) => said.get(id)!;
    const context = { records, rules, clock, people, wordsOf, receivedMs: taken.receivedMs };
    const done = await carryOut(parseAnswer(text), context);
    await reply(options, done, address, key, wordsOf(done.person));
    await records.inbound.finish(key, clock.nowMs(), done.outcome);
    logger.info({ person: done.person.id, outcome: done.outcome }, 'a text was answered');
    options.onChanged({ yardId: done.person.yardId, pileId: done.pileId });
  };
}

async function reply(
  options: AnswerDeskOptions,
  done: Done,
  address: string,
  key: string,
  words: MessageWords,
): Promise<void> {
  const { records, clock, channel } = options;
  const nowMs = clock.nowMs();
  const message: NewMessage = {
    ...{ yardId: done.person.yardId, personId: done.person.id, pileId: done.pileId },
    ...{ alarmId: null, occurrence: null, answerLink: null, channel, address },
    idempotencyKey: `answer:${key}`,
    kind: 'answer',
    text: fitOneSegment([{ text: done.reply, priority: 1 }]).text,
    priority: 'high',
    createdMs: nowMs,
    notBeforeMs: nowMs,
    expiresMs: nowMs + hourMs,
  };
  if (await saysEnough(records, done.person, message.text, words, nowMs)) return;
  await records.messages.add([message]);
}

/** Whether the person has had all the answers of an hour, or this very help line within it. */
async function saysEnough(
  records: Records,
  person: Person,
  text: string,
  words: MessageWords,
  nowMs: number,
): Promise<boolean> {
  const answers = (await records.messages.toPerson(person.id, nowMs - hourMs)).filter(
    ({ kind }) => kind === 'answer',
  );
  if (answers.length >= mostAnswersAnHour) return true;
  const help = fitOneSegment([{ text: words.answers.help, priority: 1 }]).text;
  return text === help && answers.some((answer) => answer.text === help);
}

function keyOf({ from, reference, receivedMs, text }: InboundText): string {
  const when = reference ?? `${Math.floor(receivedMs / sameTextMs)} ${text}`;
  return createHash('sha256')
    .update(`${from}\n${reference === null}\n${when}`)
    .digest('hex');
}
