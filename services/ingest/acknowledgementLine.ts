/** The acknowledgements of one connection: sent in order of arrival, each only when its message is durable. */
export interface AcknowledgementLine {
  /** `messageId` is null at QoS 0, which is not acknowledged. `durable` rejects when the message could not be stored. */
  take(messageId: number | null, durable: Promise<unknown>): void;
  /** Messages taken and not yet durable. */
  waiting(): number;
  /** Resolves when nothing waits any more. */
  drained(): Promise<void>;
}

interface Entry {
  readonly messageId: number | null;
  isDurable: boolean;
}

export interface AcknowledgementLineOptions {
  /** Writes packets to this very connection; when it is gone they are lost, and the broker sends the messages again. */
  readonly write: (packets: Uint8Array) => void;
  /** A message could not be stored: nothing more may be acknowledged here. Called once. */
  readonly onFault: (error: unknown) => void;
}

export function createAcknowledgementLine({
  write,
  onFault,
}: AcknowledgementLineOptions): AcknowledgementLine {
  let entries: Entry[] = [];
  let waiting = 0;
  let isBroken = false;
  let isFlushPlanned = false;
  let onDrained: (() => void)[] = [];

  function flush(): void {
    isFlushPlanned = false;
    const firstWaiting = entries.findIndex(({ isDurable }) => !isDurable);
    const durable = firstWaiting < 0 ? entries : entries.slice(0, firstWaiting);
    entries = entries.slice(durable.length);
    const packets = durable.flatMap(({ messageId }) => (messageId === null ? [] : puback(messageId)));
    if (packets.length > 0 && !isBroken) write(Uint8Array.from(packets));
    if (waiting > 0) return;
    for (const tell of onDrained) tell();
    onDrained = [];
  }

  function settle(entry: Entry): void {
    waiting--;
    entry.isDurable = true;
    // One write for a whole group: its messages become durable within one turn of the event loop.
    if (!isFlushPlanned) setImmediate(flush);
    isFlushPlanned = true;
  }

  function fail(error: unknown): void {
    waiting--;
    const isFirst = !isBroken;
    isBroken = true;
    if (!isFlushPlanned) setImmediate(flush);
    isFlushPlanned = true;
    if (isFirst) onFault(error);
  }

  return {
    take(messageId, durable) {
      const entry: Entry = { messageId, isDurable: false };
      entries.push(entry);
      waiting++;
      durable.then(() => settle(entry), fail);
    },
    waiting: () => waiting,
    drained: () =>
      waiting === 0 && !isFlushPlanned ? Promise.resolve() : new Promise((tell) => onDrained.push(tell)),
  };
}

/** PUBACK with success, the same four bytes in MQTT 3.1.1 (section 3.4) and 5 (section 3.4.2.1: no reason code is success). */
function puback(messageId: number): number[] {
  return [0x40, 0x02, messageId >> 8, messageId & 0xff];
}
