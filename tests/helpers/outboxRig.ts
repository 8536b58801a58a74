import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { MessageChannel, SendOutcome } from '../../services/notify/messageChannel.ts';
import { type NotifyOptions, startNotify } from '../../services/notify/startNotify.ts';
import { openRecords, type RecordsOptions } from '../../services/records/openRecords.ts';
import { type Message, type NewMessage, newId } from '../../services/records/port.ts';
import type { Alarm } from '../../shared/alarms/alarm.ts';
import { newAlarm as normalAlarm } from '../../shared/alarms/newAlarm.ts';
import { type DutyPlan, defaultDutyPlan } from '../../shared/messages/dutyPlan.ts';
import type { Person } from '../../shared/yard/people.ts';

/** A Wednesday, noon in London. */
export const noonMs = Date.UTC(2026, 10, 25, 12);
export const minuteMs = 60_000;

/** Plays a channel: answers as told and remembers what it was given. */
export function openTestChannel() {
  const given: Message[] = [];
  const channel: MessageChannel & {
    given: readonly Message[];
    answer: (message: Message) => SendOutcome | Promise<SendOutcome>;
  } = {
    kind: 'sms-http',
    longestSendMs: 1000,
    given,
    answer: ({ id }) => ({ kind: 'sent', detail: 'taken', reference: `ref ${id}` }),
    async send(message) {
      given.push(message);
      return channel.answer(message);
    },
    check: async () => ({ ready: true, detail: 'ready' }),
    stop: async () => {},
  };
  return channel;
}

/**
 * A yard on the real records, SQLite unless told otherwise, with a clock that stands until it is moved, and the notifier
 * when it is started.
 */
export async function openOutboxRig(database?: RecordsOptions) {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-outbox-'));
  const options: RecordsOptions = database ?? { kind: 'sqlite', file: join(folder, 'records.sqlite') };
  const records = await openRecords(options);
  const yard = await records.yards.create({
    name: 'Gannet Row',
    timeZone: 'Europe/London',
    temperatureUnit: 'C',
    altitudeMetres: 3,
  });
  // Most tests count single texts; those about what comes in one minute say so.
  const single = { ...defaultDutyPlan, groupSeconds: 0 };
  const saved = { yardId: yard.id, plan: single, by: null, savedMs: noonMs, expectedVersion: 0 };
  await records.duty.save(saved);
  const clock = { ms: noonMs, nowMs: () => clock.ms };
  const channel = openTestChannel();
  let codes = 0;
  let notify: ReturnType<typeof startNotify> | null = null;

  const person = (login: string, change: Partial<Person> = {}) =>
    records.people.create(
      {
        ...{ yardId: yard.id, login, name: login, role: 'keeper', receivesTexts: true, disabled: false },
        ...{ phone: `+4416329601${String(++codes).padStart(2, '0')}`, textsFrom: 'low' },
        ...change,
      },
      null,
    );
  const pile = (name: string) =>
    records.piles.create({
      ...{ yardId: yard.id, name, place: 'bay 3', method: 'static-cage', startedMs: noonMs - 86_400_000 },
    });
  const commit = (part: { alarms?: Alarm[]; messages?: NewMessage[] }) =>
    records.alarms.commit({ alarms: [], transitions: [], messages: [], statuses: [], marks: [], ...part });

  /** An alarm that stands, not yet stored. */
  const newAlarm = async (pileId?: string): Promise<Alarm> => ({
    ...standingAlarm(yard.id, pileId ?? (await pile(`Cage ${++codes}`)).id),
    ...{ id: newId(), code: `K${++codes}`, activeSinceMs: clock.ms },
  });
  /** A text about an alarm to a person, not yet stored. */
  const newText = (to: Person, alarm: Alarm | null, change: Partial<NewMessage> = {}): NewMessage => ({
    ...{ yardId: yard.id, personId: to.id, address: to.phone ?? '', channel: 'sms-http' },
    ...{ alarmId: alarm?.id ?? null, occurrence: alarm?.occurrence ?? null, pileId: null },
    ...{ priority: alarm?.priority ?? 'high', text: 'core too hot', answerLink: null },
    ...{ createdMs: clock.ms, notBeforeMs: clock.ms, expiresMs: clock.ms + 12 * 60 * minuteMs },
    idempotencyKey: newId(),
    ...change,
  });

  return {
    ...{ records, options, yard, clock, channel, person, pile, commit },
    newAlarm,
    newText,
    /** An alarm that stands, on a pile of its own unless one is given. */
    async alarm(change: Partial<Alarm> = {}, pileId?: string): Promise<Alarm> {
      const alarm = { ...(await newAlarm(pileId)), ...change };
      await commit({ alarms: [alarm] });
      return alarm;
    },
    /** Writes a text about an alarm to a person, as rules do. */
    async text(to: Person, alarm: Alarm | null, change: Partial<NewMessage> = {}): Promise<string> {
      const message = newText(to, alarm, change);
      await commit({ messages: [message] });
      const [written] = (await records.messages.list(yard.id, 1000)).filter(
        ({ idempotencyKey }) => idempotencyKey === message.idempotencyKey,
      );
      return written!.id;
    },
    savePlan: async (change: Partial<DutyPlan>) => {
      const { version } = await records.duty.current(yard.id);
      const plan = { ...defaultDutyPlan, groupSeconds: 0, ...change };
      const row = { yardId: yard.id, plan, by: null, savedMs: clock.ms };
      await records.duty.save({ ...row, expectedVersion: version });
    },
    start(more: Partial<NotifyOptions> = {}) {
      const logger = pino({ level: 'silent' });
      notify = startNotify({ records, channels: [channel], clock, logger, random: () => 0, ...more });
      return notify;
    },
    stateOf: async (id: string) => (await records.messages.get(id))?.state,
    async close() {
      await notify?.stop();
      await records.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

const standingAlarm = (yardId: string, pileId: string): Alarm => ({
  ...normalAlarm(yardId, { kind: 'pile', id: pileId }, 'too-hot-ceiling'),
  ...{ state: 'unacknowledged', priority: 'high', occurrence: 1, version: 1 },
});

export type OutboxRig = Awaited<ReturnType<typeof openOutboxRig>>;
