import { type Alarm, priorities } from '../../../shared/alarms/alarm.ts';
import { composeSeveralText, type SeveralText } from '../../../shared/messages/composeSeveral.ts';
import { type GatedText, gate } from '../../../shared/messages/gate.ts';
import { languages } from '../../../shared/messages/words/languages.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { Message, MessageKind, NewMessage, Records } from '../../records/port.ts';
import { wordsFor } from '../wordsFor.ts';
import { insteadKeyOf } from './insteadKey.ts';
import { aboutWhat } from './nameAlarm.ts';
import { isStillWanted } from './stillWanted.ts';
import { timeOfDay } from './timeOfDay.ts';

const hourMs = 3_600_000;

/** Nobody asked for these: they may wait, and count against what an hour allows. */
const gated: readonly MessageKind[] = ['alarm', 'milestone', 'next-person', 'nobody-answers'];
/** Made at this gate in place of others; they count, and pass. */
const madeHere: readonly MessageKind[] = ['several', 'morning'];
const wentOut: readonly Message['state'][] = ['sent', 'delivered', 'failed'];

export interface GateOptions {
  readonly records: Records;
  readonly clock: { nowMs(): number };
  readonly claimant: string;
  /** Address people reach this yard by, without a slash at its end; null while it is not known. */
  readonly publicUrl: () => string | null;
}

/** A message about an alarm, with the alarm as it stands. */
interface About {
  readonly message: Message;
  readonly alarm: Alarm;
}

/**
 * The gate between the outbox and a person (`shared/messages/gate.ts` decides): tells whether a claimed message goes
 * now. When it does not, it has been put back for later, told together with others, or ended because it is over.
 */
export function openGate(options: GateOptions): (message: Message) => Promise<boolean> {
  const { records, clock, claimant } = options;

  async function mayGo(message: Message): Promise<boolean> {
    const alarm = message.alarmId === null ? null : await records.alarms.get(message.alarmId);
    if (alarm !== null && !isStillWanted(message, alarm)) return dismissed(message, 'over');
    if (alarm !== null && (await isToldInstead(records, message))) return dismissed(message, 'overtaken');
    if (message.priority === 'highest' || message.channel === 'webhook') return true;
    if (!gated.includes(message.kind)) return true;
    const yard = await records.yards.get(message.yardId);
    return yard === null || weigh(message, alarm, yard);
  }

  async function dismissed({ id }: Message, heldFor: 'over' | 'overtaken'): Promise<false> {
    await records.messages.dismiss([id], { claimant, atMs: clock.nowMs(), heldFor });
    return false;
  }

  async function weigh(message: Message, alarm: Alarm | null, yard: Yard): Promise<boolean> {
    const nowMs = clock.nowMs();
    const { plan } = await records.duty.current(yard.id);
    const toPerson = (await records.messages.toPerson(message.personId, nowMs - hourMs)).filter(
      (other) => other.channel === message.channel && other.address === message.address,
    );
    const behind = alarm === null ? [] : await waitingBehind(records, message, toPerson, nowMs);
    const verdict = gate({
      text: gatedText(message),
      behind: behind.map((about) => ({ ...gatedText(about.message), about })),
      sentMs: countedMs(toPerson, nowMs),
      lastOtherMs: lastOtherMs(message, toPerson),
      ...{ plan, timeZone: yard.timeZone, nowMs },
    });
    if (verdict.kind === 'send') return true;
    if (verdict.kind === 'hold') {
      const { untilMs, heldFor } = verdict;
      // It is us who make it wait: it must not grow too old by that.
      const expiresMs = Math.max(message.expiresMs, untilMs + 2 * hourMs);
      await records.messages.hold(message.id, { claimant, untilMs, expiresMs, heldFor });
      return false;
    }
    // One that tells several already cannot be told within another.
    if (alarm === null) return true;
    const chosen = new Set(verdict.texts.map(({ id }) => id));
    const told = [{ message, alarm }, ...behind.filter((about) => chosen.has(about.message.id))];
    const together = await togetherMessage(options, told, yard, verdict);
    const ids = told.map((about) => about.message.id);
    await records.messages.tellTogether(ids, together, claimant, nowMs);
    return false;
  }

  return mayGo;
}

/** Tried in vain, it was told by another way meanwhile (`duty/undelivered.ts`). */
async function isToldInstead(records: Records, { id, attempts, alarmId }: Message): Promise<boolean> {
  if (attempts === 0 || alarmId === null) return false;
  const others = await records.messages.aboutAlarms([alarmId]);
  return others.some(
    ({ idempotencyKey, state }) =>
      idempotencyKey.startsWith(insteadKeyOf(id)) && (state === 'sent' || state === 'delivered'),
  );
}

function gatedText({ id, priority, heldFor }: Message): GatedText {
  const isHere = heldFor === 'quiet' || heldFor === 'cap' || heldFor === 'group';
  return { id, priority, heldFor: isHere ? heldFor : null };
}

/** When texts that count went out; one made here that still has to go counts as going now. */
function countedMs(toPerson: readonly Message[], nowMs: number): number[] {
  return toPerson
    .filter(({ priority }) => priority !== 'highest')
    .flatMap(({ kind, state, finishedMs }) => {
      if (![...gated, ...madeHere].includes(kind)) return [];
      if (wentOut.includes(state)) return finishedMs === null ? [] : [finishedMs];
      return madeHere.includes(kind) && (state === 'waiting' || state === 'sending') ? [nowMs] : [];
    });
}

/** When something else, at least as pressing, last went to the address: what goes on about one pile waits for nothing. */
function lastOtherMs({ priority, pileId }: Message, toPerson: readonly Message[]): number | null {
  const rank = priorities.indexOf(priority);
  const times = toPerson
    .filter((other) => [...gated, ...madeHere].includes(other.kind) && wentOut.includes(other.state))
    .filter((other) => other.priority !== 'highest' && priorities.indexOf(other.priority) <= rank)
    .filter((other) => other.pileId === null || other.pileId !== pileId)
    .flatMap(({ finishedMs }) => finishedMs ?? []);
  return times.length === 0 ? null : Math.max(...times);
}

/** What could go to the same address now as well and is still wanted. */
async function waitingBehind(
  records: Records,
  { id }: Message,
  toPerson: readonly Message[],
  nowMs: number,
): Promise<About[]> {
  const found: About[] = [];
  for (const message of toPerson) {
    const { alarmId, attempts, kind, nextAttemptMs, state } = message;
    const couldGo = state === 'waiting' && attempts === 0 && nextAttemptMs <= nowMs;
    if (message.id === id || alarmId === null || !couldGo || !gated.includes(kind)) continue;
    const alarm = await records.alarms.get(alarmId);
    if (alarm !== null && isStillWanted(message, alarm)) found.push({ message, alarm });
  }
  return found;
}

type Together = { readonly why: SeveralText['why']; readonly nextMs: number | null };

async function togetherMessage(
  { records, clock, publicUrl }: GateOptions,
  told: readonly About[],
  yard: Yard,
  { why, nextMs }: Together,
): Promise<NewMessage> {
  const rank = ({ message }: About) => priorities.indexOf(message.priority);
  const sorted = told.toSorted((a, b) => rank(a) - rank(b));
  const { message: first } = sorted[0]!;
  const person = await records.people.get(first.personId);
  const words = await wordsFor(records, person ?? { yardId: yard.id, language: languages[0] });
  const alarms = await Promise.all(
    sorted.map(async ({ alarm }) => {
      const { name } = await aboutWhat(records, alarm);
      return { name, what: words.conditions[alarm.condition], code: alarm.code };
    }),
  );
  const address = publicUrl();
  const several = {
    ...{ yardName: yard.name, why, alarms, firstAction: first.firstAction ?? '' },
    link: address === null ? null : `${address}/`,
    nextTime: nextMs === null ? null : timeOfDay(yard.timeZone, nextMs),
  };
  const text = composeSeveralText(several, words);
  const { yardId, personId, channel, address: to, priority } = first;
  return {
    ...{ yardId, personId, channel, address: to, priority, text },
    ...{ pileId: null, alarmId: null, occurrence: null, answerLink: null },
    kind: why === 'morning' ? 'morning' : 'several',
    // Told again after a crash, it is the same message: its first one is named by it.
    idempotencyKey: `together:${told[0]!.message.id}`,
    createdMs: clock.nowMs(),
    notBeforeMs: clock.nowMs(),
    expiresMs: Math.max(...told.map(({ message }) => message.expiresMs)),
  };
}
