import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import type { ChannelKind, Message } from '../records/port.ts';
import type { MessageChannel, SendOutcome, Trouble } from './messageChannel.ts';
import type { ChannelDeskPort, ChannelStanding, ChannelTrouble } from './port.ts';
import { testMessage } from './testMessage.ts';

export interface ChannelDeskOptions {
  readonly channels: readonly MessageChannel[];
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** Something only a person can put right; told once for as long as it says the same. */
  readonly onTrouble?: (trouble: ChannelTrouble) => void;
}

export interface ChannelDesk extends ChannelDeskPort {
  /** Longest any channel may take over one message. */
  readonly longestSendMs: number;
  send(message: Message): Promise<SendOutcome>;
  stop(): Promise<void>;
}

/** All channels of a yard behind one counter: finds the one for a message and remembers how each stands. */
export function openChannelDesk(options: ChannelDeskOptions): ChannelDesk {
  const { clock, logger } = options;
  const channels = new Map(options.channels.map((channel) => [channel.kind, channel]));
  const standings = new Map<ChannelKind, ChannelStanding>();

  function note(channel: ChannelKind, ready: boolean, { detail, tellOwner }: Trouble): void {
    const before = standings.get(channel);
    standings.set(channel, { channel, ready, detail, tellOwner: tellOwner === true, atMs: clock.nowMs() });
    if (tellOwner !== true || (before?.tellOwner === true && before.detail === detail)) return;
    logger.error({ channel, detail }, 'a message channel needs somebody to put it right');
    options.onTrouble?.({ channel, detail, atMs: clock.nowMs() });
  }

  async function send(message: Message): Promise<SendOutcome> {
    const channel = channels.get(message.channel);
    if (!channel)
      return { kind: 'gave-up', detail: `no ${message.channel} channel is set up`, tellOwner: true };
    const outcome = await channel.send(message).catch((error: unknown): SendOutcome => {
      logger.error({ err: error, channel: channel.kind }, 'a channel broke off');
      return { kind: 'retry', detail: `${channel.kind} broke off unexpectedly`, maybeSent: true };
    });
    // One refused message says nothing about the next one.
    if (outcome.kind === 'sent' || outcome.tellOwner === true)
      note(channel.kind, outcome.kind === 'sent', outcome);
    return outcome;
  }

  async function check(kind: ChannelKind): Promise<ChannelStanding | null> {
    const channel = channels.get(kind);
    if (!channel) return null;
    const found = await channel.check().catch((error: unknown) => {
      logger.error({ err: error, channel: kind }, 'the check of a channel broke off');
      return { ready: false, detail: 'the check broke off unexpectedly' };
    });
    note(kind, found.ready, found);
    logger.info({ channel: kind, ready: found.ready, detail: found.detail }, 'message channel checked');
    return standings.get(kind) ?? null;
  }

  return {
    longestSendMs: Math.max(0, ...options.channels.map(({ longestSendMs }) => longestSendMs)),
    isKnown: () => true,
    kinds: () => [...channels.keys()],
    pushKey: () => channels.get('web-push')?.publicKey ?? null,
    send,
    check,
    standings: () => [...channels.keys()].flatMap((kind) => standings.get(kind) ?? []),
    test: (kind, address) => send(testMessage(kind, address, randomUUID(), clock.nowMs())),
    async stop() {
      await Promise.all(options.channels.map((channel) => channel.stop()));
    },
  };
}
