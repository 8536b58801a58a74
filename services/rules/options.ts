import type { Logger } from 'pino';
import type { ServiceFacts } from '../../shared/rules/serviceFacts.ts';
import type { Clock } from '../clock.ts';
import type { ChannelKind, Records } from '../records/port.ts';
import type { SeriesStore } from '../series/port.ts';
import type { Share } from '../sharing/port.ts';
import type { LiveChange } from '../web/port.ts';

export interface RulesConfig {
  /**
   * How long judgement waits, in the clock's time, for readings of the same stretch to come together. Default 0: at once.
   * Readings later than this are still judged right, but the pile has to be read again from the store, a few milliseconds
   * each: thousands of piles with several probes whose clocks differ do better with some seconds.
   */
  readonly settleSeconds?: number;
  /** Real time between two looks at the clock. Default 1000. */
  readonly tickMilliseconds?: number;
  /** Real time after which records are read again although nobody said they changed. Default 30,000. */
  readonly factsMilliseconds?: number;
  /** Clock time between two stored statuses of a pile. Default 60. */
  readonly statusSeconds?: number;
  /** Gap between readings expected of a probe of which nothing is known. Default 300. */
  readonly defaultIntervalSeconds?: number;
  /** Clock time after which an unsent text is not worth sending. Default 12. */
  readonly textHours?: number;
  /** Clock time an answer link is good for. Default 72. */
  readonly answerHours?: number;
  /** How texts leave. Default `sms-http`. */
  readonly smsChannel?: Extract<ChannelKind, 'sms-http' | 'sms-modem'>;
  /** A text sent back to us is heard: texts say so. Default false. */
  readonly canReply?: boolean;
  /** Address people reach this yard by, without a slash at the end; null: texts carry the code only. */
  readonly publicUrl: () => string | null;
}

export interface RulesOptions {
  readonly records: Records;
  readonly series: SeriesStore;
  /** The yard's time; in the demo it runs fast. Event time and this must agree. */
  readonly clock: Clock;
  readonly config: RulesConfig;
  /** After each stored step: what screens should look at again, and how many texts wait in the outbox. */
  readonly onCommitted: (changes: readonly LiveChange[], messages: number) => void;
  /** Which yards are judged here; left out: all of them. */
  readonly share?: Share;
  /** Deeds of people in other processes were done or refused. */
  readonly onDeedsAnswered?: () => void;
  /** How the program itself stands, as last seen; left out, nothing of it is judged. */
  readonly services?: () => ServiceFacts;
  readonly logger: Logger;
}

export type Settings = Required<RulesConfig>;

export function settingsOf(config: RulesConfig): Settings {
  return {
    settleSeconds: 0,
    tickMilliseconds: 1000,
    factsMilliseconds: 30_000,
    statusSeconds: 60,
    defaultIntervalSeconds: 300,
    textHours: 12,
    answerHours: 72,
    smsChannel: 'sms-http',
    canReply: false,
    ...config,
  };
}
