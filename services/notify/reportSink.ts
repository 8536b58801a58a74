import type { Logger } from 'pino';
import type { MessageStore } from '../records/port.ts';
import type { InboundSink } from './messageChannel.ts';

/**
 * Notes delivery reports on their messages. Texts that come in are only counted in the log here: answering them is the
 * work of whoever takes this sink's place.
 */
export function createReportSink(
  messages: Pick<MessageStore, 'markDelivered'>,
  logger: Logger,
  onDelivered: () => void,
): InboundSink {
  return {
    async onReport({ reference, state, detail, atMs }) {
      if (state === 'failed') logger.warn({ reference, detail }, 'a message did not reach its phone');
      if (state === 'delivered' && (await messages.markDelivered(reference, atMs))) onDelivered();
    },
    async onText({ reference }) {
      logger.warn({ reference }, 'a text came in; nothing answers texts yet');
    },
  };
}
