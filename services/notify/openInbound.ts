import type { Logger } from 'pino';
import type { ChannelKind, Records } from '../records/port.ts';
import type { RulesPort } from '../rules/port.ts';
import { createAnswerDesk, type InboundChange } from './answering/answerDesk.ts';
import type { InboundSink } from './messageChannel.ts';
import { createReportSink } from './reportSink.ts';

export interface InboundOptions {
  readonly records: Records;
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** Null until they have started: what comes in before is asked to come again. */
  readonly rules: () => Pick<RulesPort, 'act' | 'factsChanged'> | null;
  /** Messages changed, and perhaps a pile's journal: outbox and screens should be looked at. */
  readonly onChanged: (change: InboundChange) => void;
}

/** What comes back from a channel: reports about what we sent, and texts, which are answered by the same channel. */
export function openInbound(options: InboundOptions, channel: ChannelKind): InboundSink {
  const { records, logger, onChanged } = options;
  return {
    ...createReportSink(records.messages, logger, () => onChanged({ yardId: null, pileId: null })),
    onText: createAnswerDesk({ ...options, channel }),
  };
}
