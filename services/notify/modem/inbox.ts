import { createHash } from 'node:crypto';
import type { Logger } from 'pino';
import type { InboundSink } from '../messageChannel.ts';
import { AtRefused } from './atErrors.ts';
import { createPartJoiner, type JoinedText } from './joinParts.ts';
import type { Incoming, ModemMode } from './mode.ts';
import type { ModemLine } from './modemLine.ts';
import type { ReportTracker } from './reports.ts';
import type { Unsolicited } from './unsolicited.ts';

export interface InboxOptions {
  readonly line: ModemLine;
  readonly mode: ModemMode;
  readonly sink: InboundSink;
  readonly reports: ReportTracker;
  readonly nowMs: () => number;
  readonly waitMs: number;
  readonly logger: Logger;
}

/** Texts that come in: read off the modem, passed on, and only then deleted there. */
export interface Inbox {
  /** Something the modem said unasked; what is not about texts is passed over. */
  onSaid(said: Unsolicited): void;
  /** Looks through all the modem holds, for what came while nobody listened. Never throws. */
  sweep(): Promise<void>;
}

/** A network's clock may be wrong, and a phone may have been off for days; beyond this its time is not believed. */
const oldestBelievedMs = 7 * 86_400_000;

export function createInbox(options: InboxOptions): Inbox {
  const { line, mode, sink, reports, nowMs, waitMs, logger } = options;
  const joiner = createPartJoiner();
  let turn: Promise<void> = Promise.resolve();

  /** One after the other, so that nothing is read twice at a time; what fails is found again by the next sweep. */
  function inTurn(work: () => Promise<void>): Promise<void> {
    turn = turn.then(work).catch((error: unknown) => {
      const detail = error instanceof Error ? error.message : 'unknown';
      logger.warn({ detail }, 'texts that came in could not be taken; they stay in the modem');
    });
    return turn;
  }

  async function take(incoming: Incoming, index: number | null): Promise<void> {
    const indexes = index === null ? [] : [index];
    if (incoming.kind === 'unreadable') {
      logger.warn('something came in that is no text; it is deleted from the modem');
      await remove(indexes);
    } else if (incoming.kind === 'report') {
      const report = reports.take(incoming.messageReference, incoming.status, nowMs());
      if (report !== null) await sink.onReport(report);
      await remove(indexes);
    } else {
      const joined = joiner.take(incoming, index, nowMs());
      if (joined !== null) await passOn(joined);
    }
  }

  async function passOn({ from, text, takenMs, indexes }: JoinedText): Promise<void> {
    const now = nowMs();
    const isBelieved = takenMs !== null && takenMs <= now && now - takenMs <= oldestBelievedMs;
    // The same when it is read again, should we be stopped before it is deleted.
    const hash = createHash('sha256').update(`${from}\n${takenMs}\n${text}`).digest('base64url');
    await sink.onText({
      from,
      text,
      receivedMs: isBelieved ? takenMs : now,
      reference: `modem ${hash.slice(0, 22)}`,
    });
    await remove(indexes);
  }

  async function remove(indexes: readonly number[]): Promise<void> {
    for (const index of indexes) await line.use((engine) => engine.command(`AT+CMGD=${index}`, waitMs));
  }

  async function readAt(index: number): Promise<void> {
    const lines = await line.use((engine) => engine.command(`AT+CMGR=${index}`, waitMs)).catch(gone);
    // A sweep may have been there before us.
    if (lines.some((said) => said.startsWith('+CMGR:'))) await take(mode.readStored(lines), index);
  }

  return {
    onSaid({ line: said, data }) {
      const announced = /^\+C(?:MTI|DSI): ?"[^"]*", ?(\d+)/.exec(said)?.[1];
      if (announced !== undefined) void inTurn(() => readAt(Number(announced)));
      else if (/^\+C(?:MT|DS):/.test(said)) void inTurn(() => take(mode.readDirect(said, data), null));
    },
    sweep: () =>
      inTurn(async () => {
        for (const { index, incoming } of await line.use((engine) => mode.listStored(engine, waitMs)))
          await take(incoming, index);
        for (const joined of joiner.overdue(nowMs())) await passOn(joined);
      }),
  };
}

function gone(error: unknown): string[] {
  if (error instanceof AtRefused) return [];
  throw error;
}
