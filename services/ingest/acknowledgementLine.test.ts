import { describe, expect, it } from 'vitest';
import { createAcknowledgementLine } from './acknowledgementLine.ts';

/** A line whose writes and faults are recorded, and messages that become durable when the test says so. */
function recordedLine() {
  const writes: string[] = [];
  const faults: unknown[] = [];
  const line = createAcknowledgementLine({
    write: (packets) => writes.push(Buffer.from(packets).toString('hex')),
    onFault: (error) => faults.push(error),
  });
  const take = (messageId: number | null) => {
    const { promise, resolve, reject } = Promise.withResolvers<void>();
    line.take(messageId, promise);
    return { store: resolve, fail: reject };
  };
  return { line, writes, faults, take };
}
const turn = async () => {
  await new Promise((resolve) => setImmediate(resolve));
  await new Promise((resolve) => setImmediate(resolve));
};

describe('acknowledgement line', () => {
  it('keeps the order of arrival whatever becomes durable first', async () => {
    const { writes, take } = recordedLine();
    const [first, second, third] = [take(1), take(2), take(3)];
    second.store();
    await turn();
    expect(writes).toEqual([]);
    first.store();
    await turn();
    expect(writes).toEqual(['4002000140020002']);
    third.store();
    await turn();
    expect(writes).toEqual(['4002000140020002', '40020003']);
  });

  it('writes the acknowledgements of a group at once, high message ids included', async () => {
    const { writes, take } = recordedLine();
    for (const message of [take(65535), take(256)]) message.store();
    await turn();
    expect(writes).toEqual(['4002ffff40020100']);
  });

  it('acknowledges nothing any more once a message could not be stored', async () => {
    const { writes, faults, take, line } = recordedLine();
    const [first, second, third] = [take(1), take(2), take(3)];
    first.store();
    await turn();
    second.fail('disk full');
    third.store();
    await turn();
    expect(writes).toEqual(['40020001']);
    expect(faults).toEqual(['disk full']);
    await line.drained();
  });

  it('sends nothing for QoS 0 and still counts it as waiting', async () => {
    const { writes, take, line } = recordedLine();
    const message = take(null);
    expect(line.waiting()).toBe(1);
    message.store();
    await line.drained();
    expect(writes).toEqual([]);
    expect(line.waiting()).toBe(0);
  });
});
