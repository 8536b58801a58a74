import type { AcceptOutcome, IncomingMessage } from './port.ts';

/** Most messages of one group; bounds the memory of a group and the time its first message waits. */
const mostPerGroup = 2_000;
const messagesPerTurn = 100;

/** One message of a group, read and judged, with its outcome once it is durable. */
export type Settlement = PromiseSettledResult<AcceptOutcome>;

interface Waiting {
  readonly message: IncomingMessage;
  resolve(outcome: AcceptOutcome): void;
  reject(error: unknown): void;
}

export interface ArrivalsOptions<Prepared> {
  /** Runs before the messages of a group are prepared; never rejects. */
  readonly beforeGroup?: () => Promise<void>;
  /** Reads and judges one message; messages are prepared one after another, in order of arrival. */
  readonly prepare: (message: IncomingMessage) => Promise<Prepared>;
  /** Makes a group durable; one settlement for each, in order. Never rejects. */
  readonly store: (group: readonly Prepared[]) => Promise<readonly Settlement[]>;
  /** Resolves when the group given to `store` last is settled. */
  readonly settled: () => Promise<void>;
  readonly groupMilliseconds: number;
  readonly onFault: (error: unknown) => void;
}

/** The queue of messages taken in and not yet durable. */
export interface Arrivals {
  add(message: IncomingMessage): Promise<AcceptOutcome>;
  waiting(): number;
  settled(): Promise<void>;
}

/**
 * Gathers messages into groups and answers them in order of arrival. Two groups are on their way at most: one at the
 * disk, one being read and judged meanwhile.
 */
export function createArrivals<Prepared>(options: ArrivalsOptions<Prepared>): Arrivals {
  let queue: Waiting[] = [];
  let running: Promise<void> | null = null;
  let inGroups = 0;

  async function run(): Promise<void> {
    await pause(options.groupMilliseconds);
    for (;;) {
      if (queue.length === 0) await options.settled();
      // Looked at again: messages may have come while the last group was being committed.
      if (queue.length === 0) break;
      await nextGroup();
      if (queue.length < mostPerGroup) await pause(options.groupMilliseconds);
    }
    running = null;
  }

  async function nextGroup(): Promise<void> {
    const group = queue.slice(0, mostPerGroup);
    queue = queue.slice(mostPerGroup);
    inGroups += group.length;
    await options.beforeGroup?.();
    const prepared = await prepareInOrder(group);
    await options.settled();
    void storeGroup(group, prepared);
  }

  /** One after another, because judging a message looks at what the one before it said. */
  async function prepareInOrder(group: readonly Waiting[]): Promise<PromiseSettledResult<Prepared>[]> {
    const prepared: PromiseSettledResult<Prepared>[] = [];
    for (const { message } of group) {
      prepared.push(...(await Promise.allSettled([options.prepare(message)])));
      // Sockets and screens must get their turn within a large group.
      if (prepared.length % messagesPerTurn === 0) await pause(0);
    }
    return prepared;
  }

  async function storeGroup(
    group: readonly Waiting[],
    prepared: readonly PromiseSettledResult<Prepared>[],
  ): Promise<void> {
    const ready = prepared.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []));
    const stored = [...(await options.store(ready))];
    for (const [index, { resolve, reject }] of group.entries()) {
      const one = prepared[index]!;
      const settlement = one.status === 'rejected' ? one : stored.shift()!;
      inGroups--;
      if (settlement.status === 'fulfilled') resolve(settlement.value);
      else {
        options.onFault(settlement.reason);
        reject(settlement.reason);
      }
    }
  }

  return {
    add: (message) =>
      new Promise((resolve, reject) => {
        queue.push({ message, resolve, reject });
        running ??= run();
      }),
    waiting: () => queue.length + inGroups,
    async settled() {
      await running;
    },
  };
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => {
    if (milliseconds === 0) setImmediate(resolve);
    else setTimeout(resolve, milliseconds);
  });
}
