import type { Logger } from 'pino';
import type { ChannelErrand, Records } from '../../records/port.ts';
import type { ChannelDeskPort } from '../port.ts';

/** How often errands are looked for, should the word of one be lost; answers nobody came back for are kept this long. */
const lookEveryMs = 2_000;
const keptMs = 3_600_000;

export interface ErrandOptions {
  readonly records: Pick<Records, 'errands'>;
  readonly desk: Pick<ChannelDeskPort, 'kinds' | 'check' | 'test'>;
  readonly logger: Logger;
}

/** Does what people ask of the channels in other processes, and answers it. */
export function runErrands({ records, desk, logger }: ErrandOptions): {
  look(): void;
  stop(): Promise<void>;
} {
  const underWay = new Set<Promise<void>>();
  let isStopped = false;

  async function doOne({ id, channel, address }: ChannelErrand): Promise<void> {
    const answer = address === null ? await desk.check(channel) : await desk.test(channel, address);
    await records.errands.answer(id, JSON.stringify(answer));
  }

  async function takeAll(): Promise<void> {
    if (isStopped) return;
    for (const errand of await records.errands.take(desk.kinds())) begin(doOne(errand));
    await records.errands.sweep(Date.now() - keptMs);
  }

  function begin(work: Promise<void>): void {
    const done: Promise<void> = work
      .catch((error: unknown) =>
        logger.error({ err: error }, 'what was asked of a channel could not be done'),
      )
      .finally(() => underWay.delete(done));
    underWay.add(done);
  }

  const look = () => begin(takeAll());
  const timer = setInterval(look, lookEveryMs);
  return {
    look,
    async stop() {
      isStopped = true;
      clearInterval(timer);
      while (underWay.size > 0) await Promise.all(underWay);
    },
  };
}
