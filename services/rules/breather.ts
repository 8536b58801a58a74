import { setImmediate as nextTurn } from 'node:timers/promises';

/** Longest stretch of judging in one go: beside it the broker, the outbox and the screens must keep moving. */
const longestMs = 8;

/** Lets the event loop turn between pieces of a long piece of work. */
export interface Breather {
  readonly isDue: () => boolean;
  readonly rest: () => Promise<void>;
}

export function createBreather(): Breather {
  let sinceMs = performance.now();
  return {
    isDue: () => performance.now() - sinceMs > longestMs,
    async rest() {
      await nextTurn();
      sinceMs = performance.now();
    },
  };
}

/** Does something for each item, several at a time, so that waiting for the stores overlaps. */
export async function forEachAtOnce<Item>(
  items: Iterable<Item>,
  atOnce: number,
  work: (item: Item) => Promise<void>,
): Promise<void> {
  const iterator = items[Symbol.iterator]();
  const breather = createBreather();
  const worker = async () => {
    for (let next = iterator.next(); !next.done; next = iterator.next()) {
      await work(next.value);
      if (breather.isDue()) await breather.rest();
    }
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
}
