import { schedule } from 'node-cron';
import type { Logger } from 'pino';
import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { fitOneSegment } from '../../../shared/messages/fitOneSegment.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { ConditionWords } from '../../../shared/rules/condition.ts';
import type { ChannelKind, NewMessage, Records } from '../../records/port.ts';
import type { ChannelTrouble } from '../port.ts';
import { escalateYard } from './escalateYard.ts';
import { createHeartbeat } from './heartbeat.ts';
import { type Outage, outageTexts } from './outage.ts';
import { notesTo, ownersOf, readYardDuty, type YardDuty } from './reach.ts';
import { dailyAllWell, monthReport, weeklyDigest } from './regularTexts.ts';
import type { WatchSettings } from './settings.ts';
import { undeliveredTexts } from './undelivered.ts';

/** After an outage judgement catches up first: what is told is what stands then. */
const catchUpMinutes = 2;
const lastRunMark = 'duty:last-run';
const outageMark = 'duty:outage';

export interface DutyOptions {
  readonly records: Records;
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  readonly settings: WatchSettings;
  readonly textChannel: ChannelKind;
  /** Channels that are set up: what does not arrive by one is told by another. */
  readonly channels: () => readonly ChannelKind[];
  readonly publicUrl: () => string | null;
  /** A text sent back to us is heard. */
  readonly canReply: boolean;
  readonly wordsFor: (alarm: Alarm) => Promise<ConditionWords | null>;
  /** Whether this process minds duty just now; left out: always. Another that did so a moment ago doubles nothing. */
  readonly isOnDuty?: () => boolean;
  /** Messages were written: the outbox should be looked at. */
  readonly onWritten: () => void;
  /** When to look what is due, as a cron expression with seconds; null: only when asked. */
  readonly tick?: string | null;
}

export interface Duty {
  /** Does all that is due now. One at a time; a fault is logged and tried again at the next look. */
  run(): Promise<void>;
  /** Tells owners that a channel does not work, by another one. */
  tellTrouble(trouble: ChannelTrouble): Promise<void>;
  lastHeartbeatMs(): number | null;
  stop(): Promise<void>;
}

/**
 * Everything that is told because time has passed: the next person, the week, all well, an outage; and the heartbeat.
 * The schedule only says when to look. What is due is worked out from the records each time: missed looks, clock
 * changes and restarts lose nothing and double nothing.
 */
export function startDuty(options: DutyOptions): Duty {
  const { records, clock, logger, settings, isOnDuty = () => true } = options;
  const heartbeat = createHeartbeat({
    ...{ records, clock, logger, url: settings.heartbeatUrl },
    everyMinutes: settings.heartbeatMinutes,
  });
  let queue: Promise<void> = Promise.resolve();

  async function look(): Promise<void> {
    if (!isOnDuty()) return;
    const nowMs = clock.nowMs();
    const lastRunMs = numberOf(await records.marks.get(lastRunMark)) ?? nowMs;
    const outage = await noteOutage(options, lastRunMs, nowMs);
    const texts: NewMessage[] = [];
    for (const yard of await records.yards.list()) {
      const duty = await readYardDuty(records, yard, nowMs, options.textChannel);
      texts.push(...(await dueTexts(options, duty, lastRunMs)));
      if (outage !== null) texts.push(...(await outageTexts(records, duty, outage)));
    }
    if (texts.length > 0) {
      await records.messages.add(texts);
      options.onWritten();
    }
    if (outage !== null) await records.marks.set(outageMark, '');
    await records.marks.set(lastRunMark, String(nowMs));
    await heartbeat.beat();
  }

  function run(): Promise<void> {
    queue = queue
      .then(look)
      .catch((error: unknown) => logger.error({ err: error }, 'a look at what is due failed; trying again'));
    return queue;
  }

  const expression = options.tick === undefined ? '*/20 * * * * *' : options.tick;
  const task = expression === null ? null : schedule(expression, run, { noOverlap: true });
  return {
    run,
    tellTrouble: (trouble) => tellTrouble(options, trouble),
    lastHeartbeatMs: heartbeat.lastMs,
    async stop() {
      await task?.destroy();
      await queue;
    },
  };
}

async function dueTexts(options: DutyOptions, duty: YardDuty, lastRunMs: number): Promise<NewMessage[]> {
  const { records, publicUrl } = options;
  const { texts, retoldAlarms } = await undeliveredTexts(records, duty, options.channels());
  return [
    ...texts,
    ...(await escalateYard(options, duty, retoldAlarms)),
    ...(await weeklyDigest(records, duty, lastRunMs, publicUrl())),
    ...(await monthReport(records, duty, lastRunMs, publicUrl())),
    ...(await dailyAllWell(records, duty, lastRunMs)),
  ];
}

/** Notices that nothing watched for a while, keeps it, and gives it once judgement has caught up; else null. */
async function noteOutage(options: DutyOptions, lastRunMs: number, nowMs: number): Promise<Outage | null> {
  const { records, settings, logger } = options;
  if (settings.outageMinutes === null) return null;
  if (nowMs - lastRunMs > settings.outageMinutes * 60_000) {
    const pending = await pendingOutage(records);
    const outage: Outage = { fromMs: pending?.fromMs ?? lastRunMs, toMs: nowMs };
    await records.marks.set(outageMark, JSON.stringify([outage.fromMs, outage.toMs]));
    logger.warn({ ...outage }, 'nothing was watched for a while');
    return null;
  }
  const outage = await pendingOutage(records);
  return outage !== null && nowMs - outage.toMs >= catchUpMinutes * 60_000 ? outage : null;
}

async function pendingOutage(records: Records): Promise<Outage | null> {
  const stored = await records.marks.get(outageMark);
  if (stored === null || stored === '') return null;
  const [fromMs, toMs] = JSON.parse(stored) as [number, number];
  return { fromMs, toMs };
}

async function tellTrouble(options: DutyOptions, { channel, detail, atMs }: ChannelTrouble): Promise<void> {
  const { records, clock } = options;
  for (const yard of await records.yards.list()) {
    const duty = await readYardDuty(records, yard, clock.nowMs(), options.textChannel);
    const text = ({ watch, channels }: MessageWords) => {
      const values = { yard: yard.name.slice(0, 24), channel: channels[channel], detail };
      return fitOneSegment([{ text: fill(watch.channelTrouble, values), priority: 1 }]).text;
    };
    const note = {
      ...{
        kind: 'service' as const,
        key: `trouble:${yard.id}:${channel}:${atMs}`,
        priority: 'high' as const,
      },
      ...{ text, goodForHours: 24 },
    };
    await records.messages.add(notesTo(ownersOf(duty), duty, note, channel));
  }
  options.onWritten();
}

const numberOf = (text: string | null): number | null => (text === null ? null : Number(text));
