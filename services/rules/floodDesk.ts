import { z } from 'zod';
import { type Alarm, priorities } from '../../shared/alarms/alarm.ts';
import { calm, isCalm, type PersonFlood, stepPersonFlood } from '../../shared/alarms/floodGate.ts';
import { composeFloodText } from '../../shared/messages/composeFlood.ts';
import { languages } from '../../shared/messages/words/languages.ts';
import type { MessageWords } from '../../shared/messages/words/messageWords.ts';
import type { YardId } from '../../shared/yard/yard.ts';
import { channelKinds, type NewMessage } from '../records/port.ts';
import type { Desk } from './desk.ts';
import type { Step } from './step.ts';
import { asksStill, firstActionOf, type TextContext } from './texts.ts';

/** A text that was kept back: for which occurrence of which alarm, and where it would have gone. */
const heldSchema = z.object({
  alarmId: z.string(),
  occurrence: z.int(),
  channel: z.enum(channelKinds),
  address: z.string(),
});
type Held = z.infer<typeof heldSchema>;

const stateSchema = z.array(
  z.tuple([
    z.string(),
    z.object({
      flood: z.object({ flooding: z.boolean(), sinceMs: z.number().nullable() }),
      textsMs: z.array(z.number()),
      held: z.array(heldSchema),
      groupedMs: z.number().nullable(),
    }),
  ]),
);

/** Name of the mark that keeps where each person's texts stand. */
export const floodMarkOf = (yardId: YardId): string => `rules:flood:${yardId}`;

/**
 * The last gate of a yard's texts: when too many come at once to one person they become one. It stands behind all
 * desks, because a flood is about a person's attention and not about a pile.
 */
export class FloodDesk {
  readonly #people: Map<string, PersonFlood<Held>>;
  readonly #desks: () => Iterable<Desk>;

  /** Goes on from what is stored. Throws a ZodError when that is not ours. */
  constructor(stored: string | null, desks: () => Iterable<Desk>) {
    this.#people = new Map(stored === null ? [] : stateSchema.parse(JSON.parse(stored)));
    this.#desks = desks;
  }

  /** Lets a step's texts through or keeps them back; adds the grouped ones and what is to be remembered. */
  pass(step: Step, context: TextContext): void {
    if (context.holdTexts || (step.messages.length === 0 && this.#people.size === 0)) return;
    const before = this.#save();
    const texts = Map.groupBy(step.messages.splice(0), ({ personId }) => personId);
    for (const personId of new Set([...texts.keys(), ...this.#people.keys()]))
      step.messages.push(...this.#passPerson(personId, texts.get(personId) ?? [], context));
    const after = this.#save();
    if (after !== before) step.marks.push([floodMarkOf(context.yard.id), after]);
  }

  #passPerson(personId: string, texts: readonly NewMessage[], context: TextContext): NewMessage[] {
    const before = this.#people.get(personId) ?? calm<Held>();
    const { standing, through, together } = stepPersonFlood(before, texts, context.nowMs, heldOf);
    if (isCalm(standing, context.nowMs)) this.#people.delete(personId);
    else this.#people.set(personId, standing);
    return [...through, ...this.#grouped(personId, together, context)];
  }

  /** One message for each way the person is reached, about what still stands unanswered. */
  #grouped(personId: string, held: readonly Held[], context: TextContext): NewMessage[] {
    if (held.length === 0) return [];
    const asking = this.#stillAsking(held);
    if (asking.length === 0) return [];
    const ways = new Map(held.map(({ channel, address }) => [`${channel} ${address}`, { channel, address }]));
    const person = context.people.find(({ id }) => id === personId);
    const words = context.wordings(person?.language ?? languages[0]);
    const text = this.#textOf(asking, context, words);
    return [...ways.values()].map((way) => groupMessage(personId, way, text, asking[0]!.alarm, context));
  }

  /** Most pressing first, then in the order they came. */
  #stillAsking(held: readonly Held[]): { alarm: Alarm; desk: Desk }[] {
    const wanted = new Map(held.map(({ alarmId, occurrence }) => [alarmId, occurrence]));
    const found = [...this.#desks()].flatMap((desk) =>
      [...desk.standing.alarms.values()]
        .filter((alarm) => asksStill(alarm) && wanted.get(alarm.id) === alarm.occurrence)
        .map((alarm) => ({ alarm, desk })),
    );
    const rank = ({ alarm }: { alarm: Alarm }) => priorities.indexOf(alarm.priority);
    return found.sort((a, b) => rank(a) - rank(b));
  }

  #textOf(
    asking: readonly { alarm: Alarm; desk: Desk }[],
    context: TextContext,
    words: MessageWords,
  ): string {
    const { yard, settings } = context;
    const address = settings.publicUrl();
    const { alarm: first, desk } = asking[0]!;
    const flood = {
      yardName: yard.name,
      whats: asking.map(({ alarm }) => words.conditions[alarm.condition]),
      firstName: desk.where().name,
      firstAction: firstActionOf(desk, first, desk.say(first.condition), context),
      link: address === null ? null : `${address}/`,
    };
    return composeFloodText(flood, words);
  }

  #save(): string {
    return JSON.stringify([...this.#people]);
  }
}

function heldOf({ alarmId, occurrence, channel, address }: NewMessage): Held {
  return { alarmId: alarmId ?? '', occurrence: occurrence ?? 0, channel, address };
}

function groupMessage(
  personId: string,
  way: Pick<NewMessage, 'channel' | 'address'>,
  text: string,
  first: Alarm,
  { yard, nowMs, settings }: TextContext,
): NewMessage {
  return {
    ...way,
    yardId: yard.id,
    pileId: null,
    alarmId: null,
    occurrence: null,
    idempotencyKey: `flood:${yard.id}:${nowMs}:${personId}:${way.channel}:${way.address}`,
    personId,
    text,
    priority: first.priority,
    createdMs: nowMs,
    notBeforeMs: nowMs,
    expiresMs: nowMs + settings.textHours * 3_600_000,
    answerLink: null,
  };
}
