import type { Logger } from 'pino';
import type { MessageStore } from '../records/port.ts';
import type { InboundSink } from './messageChannel.ts';

/**
 * Notes delivery reports on their messages. Texts that come in are only counted in the log here: answering them is the
 * work of whoever takes this sink's place.
 */
export function createReportSink(
  messages: Pick<MessageStore, 'markDelivered' | 'markFailed'>,
  logger: Logger,
  onChanged: () => void,
): InboundSink {
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
    async onText({ reference }) {
      logger.warn({ reference }, 'a text came in; nothing answers texts yet');
    },
  };
}
