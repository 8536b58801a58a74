import { type Priority, priorities } from '../alarms/alarm.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { quietUntilMs } from './quietHours.ts';

const hourMs = 3_600_000;

/** Why a text is kept back: for the morning, for the next hour, or so that what comes in one minute is told together. */
export type HeldHere = 'quiet' | 'cap' | 'group';

/** A text at the gate, or waiting behind it. */
export interface GatedText {
  readonly id: string;
  readonly priority: Priority;
  /** Why it was kept back before; null when it comes for the first time. */
  readonly heldFor: HeldHere | null;
}

export interface GateInput<Text extends GatedText> {
  readonly text: Text;
  /** Others to the same address that could go now as well. */
  readonly behind: readonly Text[];
  /** When texts went to this address within the last hour or so, fire danger left out; any order. */
  readonly sentMs: readonly number[];
  /** When a text about something else, at least as pressing as this one, last went to this address; null: not lately. */
  readonly lastOtherMs: number | null;
  readonly plan: Pick<DutyPlan, 'quiet' | 'textsPerHour' | 'groupSeconds'>;
  readonly timeZone: string;
  readonly nowMs: number;
}

/** What is to become of the text. */
export type GateVerdict<Text> =
  | { readonly kind: 'send' }
  | { readonly kind: 'hold'; readonly heldFor: HeldHere; readonly untilMs: number }
  | {
      /** One text in place of these, the one at the gate among them. */
      readonly kind: 'together';
      readonly why: 'morning' | 'cap' | 'group';
      readonly texts: readonly Text[];
      /** When the next texts can go; null when nothing holds them. */
      readonly nextMs: number | null;
    };

/**
 * The last gate before a text goes to a person. Fire danger always passes. The first text goes at once; what comes within
 * a minute after it about something else, and is no more pressing, waits for the minute to end and is told in one. What can wait is kept for the morning and
 * then told in one text; of the texts an hour allows, the last one tells together all that is there and says that the
 * next ones wait. Whatever is kept back comes to this gate again, so nothing is lost by it.
 */
export function gate<Text extends GatedText>(input: GateInput<Text>): GateVerdict<Text> {
  const { text, behind, plan, timeZone, nowMs } = input;
  if (text.priority === 'highest') return { kind: 'send' };
  const quietMs = quietUntilMs(plan, timeZone, text.priority, nowMs);
  if (quietMs !== null) return { kind: 'hold', heldFor: 'quiet', untilMs: quietMs };
  const sentMs = input.sentMs.filter((sent) => sent > nowMs - hourMs).sort((a, b) => a - b);
  const free = allowance(text.priority, plan.textsPerHour) - sentMs.length;
  if (free <= 0) return { kind: 'hold', heldFor: 'cap', untilMs: sentMs[-free]! + hourMs };
  const others = behind.filter(
    ({ priority }) => rank(priority) >= rank(text.priority) && passesNow(priority, input),
  );
  if (free === 1)
    return { kind: 'together', why: 'cap', texts: [text, ...others], nextMs: (sentMs[0] ?? nowMs) + hourMs };
  const freeMs = (input.lastOtherMs ?? Number.NEGATIVE_INFINITY) + plan.groupSeconds * 1000;
  if (freeMs > nowMs) return { kind: 'hold', heldFor: 'group', untilMs: freeMs };
  const alike = text.heldFor === null ? [] : others.filter(({ heldFor }) => heldFor === text.heldFor);
  if (alike.length === 0) return { kind: 'send' };
  const why = text.heldFor === 'quiet' ? 'morning' : (text.heldFor ?? 'group');
  return { kind: 'together', why, texts: [text, ...alike], nextMs: null };
}

const rank = (priority: Priority): number => priorities.indexOf(priority);

/** What can wait gets half of the hour, so that it never uses up the place of what cannot. */
function allowance(priority: Priority, textsPerHour: number): number {
  return rank(priority) <= rank('high') ? textsPerHour : Math.floor(textsPerHour / 2);
}

function passesNow(priority: Priority, { plan, timeZone, nowMs }: GateInput<GatedText>): boolean {
  return quietUntilMs(plan, timeZone, priority, nowMs) === null;
}
