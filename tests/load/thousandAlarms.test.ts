/**
 * A thousand alarms in a minute to five people: real rules on the real records, real notifier, a gateway that takes
 * everything. Fire danger goes first and whole; the rest comes grouped, within what an hour allows, and says how much.
 */
import { pino } from 'pino';
import { expect, onTestFinished, test } from 'vitest';
import { startNotify } from '../../services/notify/startNotify.ts';
import type { Message } from '../../services/records/port.ts';
import type { Alarm } from '../../shared/alarms/alarm.ts';
import { defaultDutyPlan } from '../../shared/messages/dutyPlan.ts';
import type { Person } from '../../shared/yard/people.ts';
import { eventually } from '../helpers/eventually.ts';
import { coreOf, type JudgedYard, startJudgedYard, startMs } from '../helpers/judgedYard.ts';
import { minuteMs, noonMs, openOutboxRig, openTestChannel } from '../helpers/outboxRig.ts';

const piles = 1000;
const fires = 10;
/** Noon in London: no quiet hours, so that the hour's number alone holds things back. */
const noonMinute = 60;
let yard: JudgedYard;
let people: Person[];
const channel = openTestChannel();
const sentAtMs = new Map<string, number>();

async function openYard(): Promise<void> {
  yard = await startJudgedYard({ piles });
  people = [yard.wren];
  const { id: _, ...values } = yard.wren;
  for (const number of [1, 2, 3, 4]) {
    const person = { ...values, login: `keeper${number}`, phone: `+44163296020${number}` };
    people.push(await yard.records.people.create(person, null));
  }
  yard.rules().factsChanged?.();
}

/** Every five minutes a reading of each pile, spread over a minute. The last ten piles burn. */
async function everythingGetsHot(): Promise<void> {
  for (let minute = noonMinute; minute <= noonMinute + 40; minute += 5) {
    const readings = Array.from({ length: piles }, (_, number) => {
      const value = number >= piles - fires ? 83 : 73.5;
      const timeMs = startMs + minute * minuteMs + (number % 60) * 1000;
      return {
        channel: coreOf(number),
        timeMs,
        rawValue: value,
        value,
        quality: 'good',
        reason: null,
      } as const;
    });
    await yard.series.append(readings);
    for (let tenth = 0; tenth <= 12; tenth += 1) await yard.judgeAt(minute + tenth / 6 + 1);
  }
}

/** Lets the notifier send all it may by now. */
async function sendAll(): Promise<void> {
  const nowMs = () => yard.nowMs();
  channel.answer = (message) => {
    sentAtMs.set(message.id, nowMs());
    return { kind: 'sent', detail: 'taken', reference: null };
  };
  const { records } = yard;
  const notify = startNotify({
    ...{ records, channels: [channel], clock: { nowMs }, logger: pino({ level: 'silent' }) },
  });
  await eventually(
    'nothing is due any more',
    async () => {
      const dueMs = await records.messages.nextDueMs();
      return dueMs === null || dueMs > nowMs();
    },
    60_000,
  );
  await notify.stop();
}

const textsTo = ({ id }: Person) => channel.given.filter(({ personId }) => personId === id);
const isFire = ({ priority }: Message) => priority === 'highest';

test('fire first and whole, the rest grouped and within the hour, and nothing unsaid', async () => {
  await openYard();
  onTestFinished(() => yard.stop());
  await everythingGetsHot();
  const standing = await yard.records.alarms.list(yard.yard.id, { standingOnly: true });
  expect(standing.filter(({ condition }) => condition === 'too-hot-ceiling').length).toBe(piles);
  await sendAll();
  for (const hour of [1, 2, 3]) {
    await yard.judgeAt(noonMinute + 42 + hour * 60);
    await sendAll();
  }

  for (const person of people) {
    const texts = textsTo(person);
    const fireTexts = texts.filter(isFire);
    expect(fireTexts).toHaveLength(fires);
    expect(
      texts.findIndex((text) => !isFire(text)),
      'no other text before a fire',
    ).toBeGreaterThanOrEqual(fires);
    for (const { id, createdMs } of fireTexts)
      expect(sentAtMs.get(id)! - createdMs).toBeLessThan(45 * minuteMs);
    const others = texts.filter((text) => !isFire(text)).map(({ id }) => sentAtMs.get(id)!);
    for (const end of others) {
      const inHour = others.filter((one) => one > end - 60 * minuteMs && one <= end).length;
      expect(inHour).toBeLessThanOrEqual(defaultDutyPlan.textsPerHour);
    }
    const said = texts.map(({ text }) => Number(/(?:and |: )(\d+) (?:more|alarms)/.exec(text)?.[1] ?? 0));
    expect(Math.max(...said)).toBeGreaterThan(900);
    for (const { text } of texts) expect(text.length).toBeLessThanOrEqual(160);
  }
  const { counts } = await yard.records.messages.standing();
  expect(counts.expired + counts.failed).toBe(0);
}, 300_000);

test('even where nothing was grouped before, the hour holds for each person and fire danger passes it', async () => {
  const rig = await openOutboxRig();
  onTestFinished(() => rig.close());
  const told = await Promise.all([1, 2, 3, 4, 5].map((number) => rig.person(`keeper${number}`)));
  const alarms: Alarm[] = [];
  for (let number = 0; number < piles; number += 1)
    alarms.push({ ...(await rig.newAlarm()), priority: number % 100 === 99 ? 'highest' : 'high' });
  await rig.commit({ alarms });
  const texts = alarms.flatMap((alarm) => told.map((person) => rig.newText(person, alarm)));
  await rig.commit({ messages: texts });
  const notify = rig.start();
  const { messages } = rig.records;
  const isQuiet = async () => {
    const dueMs = await messages.nextDueMs();
    return dueMs === null || dueMs > rig.clock.ms;
  };
  await eventually('nothing is due any more', isQuiet, 120_000);
  for (const { id } of told) {
    const got = rig.channel.given.filter(({ personId }) => personId === id);
    const others = got.filter((text) => !isFire(text));
    expect(got.slice(0, fires).every(isFire), 'every fire first').toBe(true);
    expect(got.filter(isFire)).toHaveLength(fires);
    expect(others).toHaveLength(defaultDutyPlan.textsPerHour);
    // Five by themselves and the sixth with all the rest.
    expect(others.at(-1)?.text).toContain(`and ${piles - fires - 5} more`);
  }
  rig.clock.ms = noonMs + 61 * minuteMs;
  notify.nudge();
  await eventually('nothing is left', async () => (await messages.standing()).counts.waiting === 0);
  expect((await messages.standing()).counts).toMatchObject({ expired: 0, failed: 0 });
}, 300_000);
