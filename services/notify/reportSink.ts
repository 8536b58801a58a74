import type { Logger } from 'pino';
import type { MessageStore } from '../records/port.ts';
import type { InboundSink } from './messageChannel.ts';

/** Notes what became of messages that were handed over: that they arrived, or that they never will. */
export function createReportSink(
  messages: Pick<MessageStore, 'markDelivered' | 'markFailed'>,
  logger: Logger,
  onChanged: () => void,
): Pick<InboundSink, 'onReport'> {
  return {
    async onReport({ reference, state, detail, atMs }) {
      if (state === 'underway') return;
      if (state === 'failed') logger.warn({ reference, detail }, 'a message did not reach its phone');
      const isOurs =
        state === 'failed'
          ? await messages.markFailed(reference, atMs, detail)
          : await messages.markDelivered(reference, atMs);
      if (isOurs) onChanged();
    },
  };
}
