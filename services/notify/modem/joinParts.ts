import type { Incoming } from './mode.ts';

/** A text that has come in whole, and where the modem keeps its parts. */
export interface JoinedText {
  readonly from: string;
  readonly text: string;
  readonly takenMs: number | null;
  readonly indexes: readonly number[];
}

type IncomingText = Extract<Incoming, { kind: 'text' }>;

interface Waiting {
  readonly firstSeenMs: number;
  readonly count: number;
  readonly parts: Map<number, { readonly text: IncomingText; readonly index: number | null }>;
}

/** How long the missing parts of a text are waited for before what came is passed on. */
const patienceMs = 24 * 3_600_000;

/** Ties the parts of long texts together. They stay in the modem until then, so that a crash loses none. */
export interface PartJoiner {
  /** Takes one; gives it back, joined, when nothing of it is missing. `index` is null when the modem does not hold it. */
  take(text: IncomingText, index: number | null, nowMs: number): JoinedText | null;
  /** What has waited too long, with gaps marked. */
  overdue(nowMs: number): JoinedText[];
}

export function createPartJoiner(): PartJoiner {
  const waiting = new Map<string, Waiting>();
  return {
    take(text, index, nowMs) {
      const { part, from } = text;
      if (part === null || part.count === 1) return joined([{ text, index }], text.text);
      const key = `${from} ${part.reference} ${part.count}`;
      const held: Waiting = waiting.get(key) ?? { firstSeenMs: nowMs, count: part.count, parts: new Map() };
      waiting.set(key, held.parts.set(part.number, { text, index }) && held);
      if (held.parts.size < part.count) return null;
      waiting.delete(key);
      return whole(held);
    },
    overdue(nowMs) {
      const late = [...waiting].filter(([, { firstSeenMs }]) => nowMs - firstSeenMs >= patienceMs);
      for (const [key] of late) waiting.delete(key);
      return late.map(([, held]) => whole(held));
    },
  };
}

function whole({ count, parts }: Waiting): JoinedText {
  const numbers = Array.from({ length: count }, (_, index) => index + 1);
  return joined(
    [...parts.values()],
    numbers.map((number) => parts.get(number)?.text.text ?? ' [...] ').join(''),
  );
}

function joined(parts: readonly { text: IncomingText; index: number | null }[], text: string): JoinedText {
  const { from, takenMs } = parts[0]!.text;
  return { from, takenMs, text, indexes: parts.flatMap(({ index }) => index ?? []) };
}
