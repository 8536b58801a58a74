import { createHash } from 'node:crypto';
import type { Duplex } from 'node:stream';
import type { Logger } from 'pino';
import { isE164 } from '../../../shared/messages/phoneNumber.ts';
import type { Message } from '../../records/port.ts';
import type { InboundSink, MessageChannel, SendOutcome } from '../messageChannel.ts';
import type { AtEngine } from './atEngine.ts';
import { createInbox } from './inbox.ts';
import { createModemLine } from './modemLine.ts';
import { checkNetwork, needNetwork } from './network.ts';
import { openPort } from './openPort.ts';
import { outcomeOf } from './outcomeOf.ts';
import { pduMode } from './pduMode.ts';
import { createReportTracker } from './reports.ts';
import { sendParts } from './sendParts.ts';
import type { ModemSettings } from './settings.ts';
import { textMode } from './textMode.ts';
import { validityOf } from './validity.ts';

export interface SmsModemOptions {
  readonly settings: ModemSettings;
  readonly nowMs: () => number;
  readonly sink: InboundSink;
  readonly logger: Logger;
  /** The line to the modem; by default the port of the settings. */
  readonly open?: () => Promise<Duplex>;
}

/** Longest a text waits while others go out before it; then it is given back, for another try a little later. */
const longestQueueMs = 60_000;
/** No part is begun later than this after the first one. */
const longestSendingMs = 60_000;

/**
 * Texts through a GSM modem on a serial port (3GPP TS 27.005), so that a yard without internet still texts and is
 * answered. One text at a time; what comes in is passed on and deleted in the modem once it is taken.
 */
export function createSmsModem(options: SmsModemOptions): MessageChannel {
  const { settings, nowMs, logger, sink } = options;
  const waitMs = settings.answerSeconds * 1000;
  const mode = settings.mode === 'pdu' ? pduMode : textMode;
  const reports = createReportTracker();
  const line = createModemLine({
    ...{ mode, settings, open: options.open ?? (() => openPort(settings)) },
    onUnsolicited: (said) => inbox.onSaid(said),
    onReady: () => void inbox.sweep(),
  });
  const inbox = createInbox({ line, mode, sink, reports, nowMs, waitMs, logger });
  // Also finds out that the modem hangs, while there is time.
  const poll = setInterval(() => void inbox.sweep(), settings.pollSeconds * 1000);
  const partsOut = new Map<string, number[]>();
  let turn: Promise<unknown> = Promise.resolve();

  function inTurn(work: () => Promise<SendOutcome>): Promise<SendOutcome> {
    const sinceMs = performance.now();
    const mine = turn.then(() => (performance.now() - sinceMs > longestQueueMs ? busy : work()));
    turn = mine;
    return mine;
  }

  async function sendNow(message: Message): Promise<SendOutcome> {
    try {
      return await line.use((engine) => sendOver(engine, message));
    } catch (error) {
      return outcomeOf(error);
    }
  }

  async function sendOver(engine: AtEngine, message: Message): Promise<SendOutcome> {
    await needNetwork(engine, waitMs);
    const { address: number, text, idempotencyKey, expiresMs } = message;
    const reference = createHash('sha256').update(idempotencyKey).digest()[0]!;
    const validity = validityOf(expiresMs - nowMs());
    const parts = mode.partsOf({ number, text, reference, validity }, settings);
    const done = remembered(partsOut, idempotencyKey);
    const isAllOut = await sendParts(engine, parts, done, settings, performance.now() + longestSendingMs);
    if (!isAllOut)
      return { kind: 'retry', detail: `modem is slow: ${done.length} of ${parts.length} parts are out` };
    partsOut.delete(idempotencyKey);
    const detail = `the network took it${parts.length === 1 ? '' : ` in ${parts.length} parts`}`;
    return { kind: 'sent', detail, reference: reports.sent(done) };
  }

  return {
    kind: 'sms-modem',
    longestSendMs:
      longestQueueMs + longestSendingMs + 4 * waitMs + 1000 * (settings.promptSeconds + settings.sendSeconds),
    send: (message) => (isE164(message.address) ? inTurn(() => sendNow(message)) : Promise.resolve(noNumber)),
    async check() {
      try {
        return await line.use((engine) => checkNetwork(engine, waitMs));
      } catch (error) {
        const { detail, tellOwner } = outcomeOf(error);
        return { ready: false, detail, ...(tellOwner === true ? { tellOwner } : {}) };
      }
    },
    async stop() {
      clearInterval(poll);
      await line.close();
    },
  };
}

const busy: SendOutcome = { kind: 'retry', detail: 'modem is busy with texts before this one' };
const noNumber: SendOutcome = {
  kind: 'gave-up',
  detail: 'its number is not written internationally, with + and country code',
};

/** Messages of which some parts are out are few; the oldest is forgotten, which at worst doubles a part. */
const rememberedMessages = 100;

/** Parts of a message that are out already, by the network's numbers, so that the next attempt goes on from there. */
function remembered(partsOut: Map<string, number[]>, key: string): number[] {
  const done = partsOut.get(key) ?? [];
  partsOut.set(key, done);
  if (partsOut.size > rememberedMessages) partsOut.delete(partsOut.keys().next().value!);
  return done;
}
