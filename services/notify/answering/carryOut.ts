import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { longestShelvingMinutes } from '../../../shared/api/constants.ts';
import type { Answer } from '../../../shared/messages/answer.ts';
import { durationWords } from '../../../shared/messages/compose.ts';
import { isStanding } from '../../../shared/messages/statusText.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { JournalKind } from '../../../shared/yard/journal.ts';
import type { Person } from '../../../shared/yard/people.ts';
import { type Records, RecordsError } from '../../records/port.ts';
import type { RulesPort } from '../../rules/port.ts';
import { aboutWhat } from '../gate/nameAlarm.ts';
import { timeOfDay } from '../gate/timeOfDay.ts';
import { yardStatusText } from './yardStatus.ts';

const usualStopMinutes = 240;
const shortestStopMinutes = 5;

export interface AnswerContext {
  readonly records: Records;
  readonly rules: Pick<RulesPort, 'act' | 'factsChanged'>;
  readonly clock: { nowMs(): number };
  /** Everybody with the number it came from: one, or the same person in several yards. At least one. */
  readonly people: readonly Person[];
  /** What to answer each of them with. */
  readonly wordsOf: (person: Person) => MessageWords;
  readonly receivedMs: number;
}

/** What came of a text. */
export interface Done {
  readonly person: Person;
  readonly reply: string;
  /** For the records: "seen K7". */
  readonly outcome: string;
  readonly pileId: string | null;
}

type OfAlarm = Extract<Answer, { readonly code: string | null }>;

/** An alarm and who answers it, with its names for the confirmation. */
interface Found {
  readonly person: Person;
  readonly alarm: Alarm;
  readonly pileId: string | null;
  readonly values: { readonly code: string; readonly name: string; readonly what: string };
}

/** Does what a text asks for and says what to answer. Going through it twice does no more than once. */
export async function carryOut(answer: Answer, context: AnswerContext): Promise<Done> {
  const person = context.people[0]!;
  const words = context.wordsOf(person);
  if (answer.kind === 'status')
    return plain(person, await yardStatusText(context.records, person.yardId, words), 'status');
  if (answer.kind === 'help' || answer.kind === 'unknown')
    return plain(person, words.answers.help, answer.kind);
  const found = await findAlarm(answer.code, context);
  if ('reply' in found) return found;
  return carryOutOn(answer, found, context);
}

async function carryOutOn(answer: OfAlarm, found: Found, context: AnswerContext): Promise<Done> {
  const { person, pileId, values } = found;
  const { answers: words } = context.wordsOf(person);
  const say = (template: string, more: Readonly<Record<string, string>> = {}): Done => ({
    ...{ person, pileId },
    reply: fill(template, { ...values, ...more }),
    outcome: `${answer.kind} ${values.code}`,
  });
  if (answer.kind !== 'seen' && person.role === 'viewer') return say(words.notAllowed);
  try {
    if (answer.kind === 'stop') return await stop(answer.minutes, found, context, say);
    if (answer.kind === 'done') return await done(answer.deed, found, context, say);
    return say((await see(found, context)) ? words.seen : words.seenByOther);
  } catch (error) {
    if (!(error instanceof RecordsError)) throw error;
    return say(words.refused, { reason: error.message });
  }
}

type Say = (template: string, more?: Readonly<Record<string, string>>) => Done;

/** True when it was this text that acknowledged it. */
async function see({ alarm, person }: Found, { rules, clock }: AnswerContext): Promise<boolean> {
  if (alarm.state === 'acknowledged' || alarm.state === 'latched-acknowledged') return false;
  await rules.act(alarm.id, { kind: 'acknowledge', atMs: clock.nowMs(), by: person.id });
  return true;
}

async function stop(asked: number | null, found: Found, context: AnswerContext, say: Say): Promise<Done> {
  const { alarm, person } = found;
  const all = context.wordsOf(person);
  const { answers: words } = all;
  const minutes = asked ?? usualStopMinutes;
  // Nobody may lose a yard to a fire by two words on a phone; on the page it can be shelved, with a reason.
  if (alarm.priority === 'highest') return say(words.noQuietFire);
  if (minutes > longestShelvingMinutes)
    return say(words.tooLong, { longest: durationWords(longestShelvingMinutes, all) });
  const untilMs = context.receivedMs + Math.max(shortestStopMinutes, minutes) * 60_000;
  const event = {
    atMs: context.clock.nowMs(),
    by: person.id,
    untilMs,
    reason: `by text from ${person.name}`,
  };
  await context.rules.act(alarm.id, { kind: 'shelve', ...event });
  const yard = await context.records.yards.get(person.yardId);
  const time = timeOfDay(yard?.timeZone ?? 'UTC', untilMs);
  const days = minutes >= 1440 ? `${time}, in ${durationWords(minutes, all)}` : time;
  return say(words.stopped, { time: days });
}

async function done(deed: JournalKind | null, found: Found, context: AnswerContext, say: Say): Promise<Done> {
  const { answers: words } = context.wordsOf(found.person);
  if (found.pileId === null) return say(words.notAPile);
  if (deed !== null) await writeDown(deed, found.pileId, found.person, context);
  if (asksForAnswer(found.alarm)) await see(found, context);
  return deed === null ? say(words.doneWhat) : say(words.done, { deed: words.deeds[deed] ?? deed });
}

/** The same deed of the same text is written once. */
async function writeDown(
  kind: JournalKind,
  pileId: string,
  { id: by }: Person,
  { records, rules, clock, receivedMs: timeMs }: AnswerContext,
): Promise<void> {
  const there = await records.journal.list(pileId, { fromMs: timeMs, toMs: timeMs + 1 });
  if (there.some((entry) => entry.kind === kind && entry.by === by)) return;
  const entry = { pileId, timeMs, kind, value: null, note: 'told by text', by };
  await records.journal.add({ ...entry, recordedAtMs: clock.nowMs() });
  rules.factsChanged?.(pileId);
}

const asksForAnswer = ({ state }: Alarm): boolean =>
  state === 'unacknowledged' || state === 'returned-unacknowledged' || state === 'latched-unacknowledged';

/** The alarm under a code; without a code the only one that waits for an answer. Else what to answer instead. */
async function findAlarm(code: string | null, context: AnswerContext): Promise<Found | Done> {
  const { records, people } = context;
  const owned: { person: Person; alarm: Alarm }[] = [];
  for (const person of people)
    for (const alarm of await records.alarms.list(person.yardId, { standingOnly: true }))
      owned.push({ person, alarm });
  const first = people[0]!;
  const { answers: words } = context.wordsOf(first);
  if (code !== null) {
    const match = owned.find(({ alarm }) => alarm.code === code);
    return match === undefined
      ? plain(first, fill(words.unknownCode, { code }), `no alarm ${code}`)
      : named(match, context);
  }
  const asking = owned.filter(({ alarm }) => isStanding(alarm) && asksForAnswer(alarm));
  const [only, another] = asking;
  if (only === undefined) {
    const yard = (await records.yards.get(first.yardId))?.name ?? '';
    return plain(first, fill(words.nothingStands, { yard }), 'nothing stands');
  }
  if (another === undefined) return named(only, context);
  const codes = asking.slice(0, 6).map(({ alarm }) => alarm.code);
  const reply = fill(words.whichOne, { codes: codes.join(', '), code: codes[0]! });
  return plain(first, reply, 'which one');
}

async function named(
  { person, alarm }: { person: Person; alarm: Alarm },
  { records, wordsOf }: AnswerContext,
): Promise<Found> {
  const { name, pileId } = await aboutWhat(records, alarm);
  const values = {
    code: alarm.code,
    name: name.slice(0, 24),
    what: wordsOf(person).conditions[alarm.condition],
  };
  return { person, alarm, pileId, values };
}

function plain(person: Person, reply: string, outcome: string): Done {
  return { person, reply, outcome, pileId: null };
}
