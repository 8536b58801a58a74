import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Person } from '../../../shared/yard/people.ts';
import { eventually } from '../../../tests/helpers/eventually.ts';
import {
  minuteMs,
  noonMs,
  type OutboxRig,
  openOutboxRig,
  openTestChannel,
} from '../../../tests/helpers/outboxRig.ts';
import type { Message } from '../../records/port.ts';
import { watchSchema } from './settings.ts';
import { type Duty, type DutyOptions, startDuty } from './startDuty.ts';

const dayMs = 1440 * minuteMs;
let rig: OutboxRig;
let duty: Duty | null = null;
beforeEach(async () => {
  rig = await openOutboxRig();
});
afterEach(async () => {
  await duty?.stop();
  duty = null;
  await rig.close();
});

function start(change: Partial<DutyOptions> = {}) {
  const { records, clock } = rig;
  duty = startDuty({
    ...{ records, clock, logger: pino({ level: 'silent' }), settings: watchSchema.parse({}) },
    ...{
      textChannel: 'sms-http',
      publicUrl: () => 'http://y.test',
      canReply: false,
      channels: () => ['sms-http', 'email'] as const,
      onWritten: () => {},
      tick: null,
    },
    wordsFor: async () => ({ what: 'core too hot', firstAction: 'Do not turn it.', cautions: [] }),
    ...change,
  });
  return duty;
}

/** Lets the clock come to a minute after noon and does what is due; gives the messages written by that. */
async function runAt(minute: number, running: Duty): Promise<Message[]> {
  const before = new Set((await all()).map(({ id }) => id));
  rig.clock.ms = noonMs + minute * minuteMs;
  await running.run();
  return (await all()).filter(({ id }) => !before.has(id));
}

const all = async () => (await rig.records.messages.list(rig.yard.id, 1000)).reverse();
const turn = (person: Person, order: number) => ({
  ...{ personId: person.id, order, weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', to: '00:00' },
  holidays: 'as-any-day' as const,
});

describe('an alarm nobody answers', () => {
  async function twoOnDutyAndAnOwner() {
    const [ash, wren] = [await rig.person('ash'), await rig.person('wren')];
    const boss = await rig.person('boss', { role: 'owner', textsFrom: 'highest' });
    await rig.savePlan({ shifts: [turn(ash, 1), turn(wren, 2)] });
    const alarm = await rig.alarm({ code: 'K7' });
    await rig.text(ash, alarm);
    return { ash, wren, boss, alarm };
  }

  test('goes to the next on duty, then the owner hears that nobody answers, each once', async () => {
    const { wren, boss } = await twoOnDutyAndAnOwner();
    const running = start();
    expect(await runAt(29, running)).toEqual([]);
    const [next, ...none] = await runAt(30, running);
    expect(none).toEqual([]);
    expect(next).toMatchObject({ personId: wren.id, kind: 'next-person' });
    expect(next?.text).toContain('No answer from ash.');
    expect(next?.text).toContain('core too hot');
    expect(next?.text).toContain('Do not turn it.');
    expect(await runAt(59, running)).toEqual([]);
    const last = await runAt(60, running);
    expect(last).toMatchObject([{ personId: boss.id, kind: 'nobody-answers', priority: 'high' }]);
    expect(last[0]?.text).toContain('NOBODY ANSWERS, 2 told.');
    expect(await runAt(600, running)).toEqual([]);
  });

  test('the next one is told to do what the first text said to do, with the cause then most likely', async () => {
    const [ash, wren] = [await rig.person('ash'), await rig.person('wren')];
    await rig.savePlan({ shifts: [turn(ash, 1), turn(wren, 2)] });
    await rig.text(ash, await rig.alarm({ code: 'K7' }), {
      firstAction: 'Clear the air channels with a pole.',
    });
    const [next] = await runAt(30, start());
    expect(next?.text).toContain('core too hot for 30 min. Clear the air channels with a pole.');
  });

  test('is left while nobody was told of it yet, and goes on where it was told with others in a flood', async () => {
    const [ash, wren] = [await rig.person('ash'), await rig.person('wren')];
    await rig.savePlan({ shifts: [turn(ash, 1), turn(wren, 2)] });
    await rig.alarm({ code: 'K7' });
    const running = start();
    expect(await runAt(60, running)).toEqual([]);
    await rig.text(ash, null);
    expect(await runAt(61, running)).toMatchObject([{ personId: wren.id, kind: 'next-person' }]);
  });

  test('is told in the language of each, and in the words of the yard', async () => {
    const { wren } = await twoOnDutyAndAnOwner();
    await rig.records.people.update(wren.id, { language: 'de' });
    const overrides = {
      de: { 'alarm.nextPerson': '{names} schläft wohl.' },
      en: { 'alarm.text': '{opening} GANNET {name}: {what}. {action} {answer}' },
    };
    const change = { yardId: rig.yard.id, overrides, by: null, savedMs: noonMs };
    await rig.records.wordings.save({ ...change, expectedVersion: 0 });
    const running = start();
    const [next] = await runAt(30, running);
    expect(next?.text).toMatch(
      /^ash schläft wohl\. bay 3, Cage \d+: Kern zu heiß seit 30 min\. Do not turn it\./,
    );
    const [nobody] = await runAt(60, running);
    expect(nobody?.text).toMatch(
      /^NOBODY ANSWERS, 2 told\. GANNET Cage \d+: core too hot\. Do not turn it\./,
    );
  });

  test('is written once by two programs that look at the same time, and after a restart', async () => {
    await twoOnDutyAndAnOwner();
    rig.clock.ms = noonMs + 30 * minuteMs;
    await Promise.all([start().run(), start().run()]);
    await start().run();
    expect((await all()).filter(({ kind }) => kind === 'next-person')).toHaveLength(1);
  });

  test('ends there when somebody answers', async () => {
    const { alarm } = await twoOnDutyAndAnOwner();
    await rig.commit({ alarms: [{ ...alarm, state: 'acknowledged', version: 2 }] });
    expect(await runAt(600, start())).toEqual([]);
  });

  test('the link in the text is that of the person it went to', async () => {
    const { wren, alarm } = await twoOnDutyAndAnOwner();
    const [next] = await runAt(30, start());
    const token = /\/a\/(\S+)/.exec(next?.text ?? '')?.[1] ?? 'none';
    const { hashAnswerToken } = await import('../../rules/port.ts');
    const link = await rig.records.alarms.findAnswerLink(hashAnswerToken(token));
    expect(link).toMatchObject({ personId: wren.id, alarmId: alarm.id, occurrence: 1 });
  });
});

describe('a text that does not arrive', () => {
  const way = (person: Person, address: string) =>
    rig.records.ways.create({
      ...{ personId: person.id, channel: 'email', address, toldFrom: 'highest', createdMs: noonMs },
    });
  /** As the network reports it, a while after the gateway took it. */
  async function isLost(id: string) {
    const { messages } = rig.records;
    const [claimed] = await messages.claimDue({ nowMs: rig.clock.ms, limit: 1, leaseMs: 1e6, claimant: 'c' });
    expect(claimed?.id).toBe(id);
    const attempt = { messageId: id, attempt: 1, startedMs: rig.clock.ms, finishedMs: rig.clock.ms };
    const next = { state: 'sent', nextAttemptMs: rig.clock.ms, gatewayReference: id } as const;
    await messages.finishAttempt({ ...attempt, outcome: 'sent', detail: 'taken' }, next);
    await messages.markFailed(id, rig.clock.ms, 'UNDELIV');
  }

  test('is told by another way of the same person, the owner hears of the number, and nobody is woken twice', async () => {
    const ash = await rig.person('ash');
    const wren = await rig.person('wren');
    const boss = await rig.person('boss', { role: 'owner', textsFrom: 'highest' });
    await way(ash, 'ash@yard.test');
    await rig.savePlan({ shifts: [turn(ash, 1), turn(wren, 2)] });
    const alarm = await rig.alarm({ code: 'K7' });
    const id = await rig.text(ash, alarm, { text: 'core too hot. Do not turn it.' });
    await isLost(id);
    const running = start();
    const told = await runAt(1, running);
    expect(told).toMatchObject([
      { personId: ash.id, channel: 'email', address: 'ash@yard.test', text: 'core too hot. Do not turn it.' },
      { personId: boss.id, kind: 'service', priority: 'high' },
    ]);
    expect(told[1]?.text).toBe(
      `Gannet Row: a text to ash (...${ash.phone!.slice(-6)}) failed: the network reports that it did not arrive: UNDELIV. Told by e-mail instead. Check the number: Manage, People.`,
    );
    expect(await runAt(2, running)).toEqual([]);
    expect(await runAt(32, running)).toMatchObject([{ personId: wren.id, kind: 'next-person' }]);
  });

  test('goes to the next person at once where there is no other way', async () => {
    const [ash, wren] = [await rig.person('ash'), await rig.person('wren')];
    await rig.savePlan({ shifts: [turn(ash, 1), turn(wren, 2)] });
    await isLost(await rig.text(ash, await rig.alarm({ code: 'K7' })));
    expect(await runAt(1, start())).toMatchObject([{ personId: wren.id, kind: 'next-person' }]);
  });

  test('one that cannot leave for minutes is told by another way as well; the late one is then left', async () => {
    const ash = await rig.person('ash');
    await way(ash, 'ash@yard.test');
    const id = await rig.text(ash, await rig.alarm({ code: 'K7' }));
    for (const attempt of [1, 2, 3])
      await rig.records.messages.finishAttempt(
        { messageId: id, attempt, startedMs: noonMs, finishedMs: noonMs, outcome: 'retry', detail: 'away' },
        { state: 'waiting', nextAttemptMs: noonMs + 10 * minuteMs, gatewayReference: null },
      );
    const running = start();
    expect(await runAt(1, running)).toEqual([]);
    expect(await runAt(3, running)).toMatchObject([{ channel: 'email', personId: ash.id }]);
    const email = Object.assign(openTestChannel(), { kind: 'email' as const });
    const { given } = email;
    rig.start({ channels: [rig.channel, email] });
    await eventually('the mail went', () => given.length === 1);
    rig.clock.ms = noonMs + 11 * minuteMs;
    await eventually('the text is left', async () => (await rig.stateOf(id)) === 'not-needed');
    expect(rig.channel.given).toEqual([]);
  });
});

describe('what is told by the calendar', () => {
  test('the week, to owners, also when the program was away at its hour; once', async () => {
    const boss = await rig.person('boss', { role: 'owner' });
    await rig.savePlan({ digest: { weekday: 4, at: '07:00' } });
    await rig.text(boss, await rig.alarm({ priority: 'low' }));
    const settings = watchSchema.parse({ outageMinutes: null });
    expect(await runAt(0, start({ settings }))).toEqual([]);
    const digest = await runAt(20 * 60, start({ settings }));
    expect(digest).toMatchObject([{ personId: boss.id, kind: 'digest' }]);
    expect(digest[0]?.text).toMatch(/^Gannet Row, 7 days: 1 texts, 0 alarms\./);
    expect(await runAt(21 * 60, start({ settings }))).toEqual([]);
    expect(await runAt(8 * 1440, start({ settings }))).toHaveLength(1);
  });

  test('the month before, to owners on the first, once, also when the program was away that morning', async () => {
    const boss = await rig.person('boss', { role: 'owner' });
    await rig.savePlan({ monthReport: { at: '07:00' } });
    await rig.text(boss, await rig.alarm({ priority: 'low' }));
    const running = start();
    expect(await runAt(1, running)).toEqual([]);
    // Wednesday 25 November, noon: the first is in five days and nineteen hours.
    expect(await runAt(5 * 1440 + 18 * 60, running)).toEqual([]);
    const [told, ...none] = await runAt(5 * 1440 + 22 * 60, running);
    expect(none).toEqual([]);
    expect(told).toMatchObject({ personId: boss.id, kind: 'digest', priority: 'low' });
    expect(told?.text).toMatch(
      /^Gannet Row, 2026-11: \d+ texts, \d+ alarms\..* Report: http:\/\/y\.test\/#\/manage\/report\/2026-11$/,
    );
    expect(await runAt(6 * 1440 + 22 * 60, running)).toEqual([]);
  });

  test('all well, to whoever is on duty, or what is not', async () => {
    const [ash] = [await rig.person('ash'), await rig.person('wren')];
    await rig.savePlan({ shifts: [turn(ash, 1)], allWell: { at: '13:00' } });
    const pile = await rig.pile('Cage 1');
    const settings = watchSchema.parse({ outageMinutes: null });
    const running = start({ settings });
    await runAt(0, running);
    const [well] = await runAt(61, running);
    expect(well).toMatchObject({ personId: ash.id, kind: 'all-well' });
    expect(well?.text).toBe('Gannet Row: all well. 1 piles watched, hottest core no reading. Nothing to do.');
    await rig.alarm({ code: 'K7', state: 'acknowledged' }, pile.id);
    const [not] = await runAt(1440 + 61, running);
    expect(not?.text).toBe('Gannet Row: 1 with an alarm. First: Cage 1, core too hot (K7).');
  });
});

describe('who watches the watcher', () => {
  test('after an outage people hear how long nothing was watched and what was missed, once', async () => {
    const [ash, boss] = [await rig.person('ash'), await rig.person('boss', { role: 'owner' })];
    await rig.savePlan({ shifts: [turn(ash, 1)] });
    await runAt(0, start());
    await rig.alarm({ priority: 'low' });
    const stale = await rig.text(ash, null, { expiresMs: noonMs + minuteMs });
    rig.clock.ms = noonMs + 270 * minuteMs;
    await rig.records.messages.expireDue(rig.clock.ms);
    expect(await rig.stateOf(stale)).toBe('expired');
    expect(await runAt(270, start())).toEqual([]);
    const told = await runAt(272, start());
    expect(told.map(({ personId }) => personId).sort()).toEqual([ash.id, boss.id].sort());
    expect(told[0]?.text).toBe(
      'Gannet Row: was not watching from 25 Nov 12:00 to 25 Nov 16:30 (5 h). Alarms since then: 1, see the list. Texts too old to send: 1.',
    );
    expect(await runAt(273, start())).toEqual([]);
  });

  test('a short stop is no outage, and the first start is none', async () => {
    await rig.person('boss', { role: 'owner' });
    await runAt(0, start());
    await runAt(9, start());
    expect(await runAt(15, start())).toEqual([]);
  });

  test('at night the report of an outage waits for the morning', async () => {
    await rig.person('boss', { role: 'owner' });
    await runAt(0, start());
    await runAt(11 * 60, start());
    const [told] = await runAt(11 * 60 + 2, start());
    expect(told?.notBeforeMs).toBe(noonMs + 18.5 * 60 * minuteMs);
  });

  test('a channel that does not work is told to owners by another one', async () => {
    const boss = await rig.person('boss', { role: 'owner' });
    const way = { personId: boss.id, channel: 'email' as const, address: 'boss@yard.example' };
    await rig.records.ways.create({ ...way, toldFrom: 'high', createdMs: noonMs });
    await start().tellTrouble({ channel: 'sms-http', detail: 'no credit', atMs: noonMs });
    expect(await all()).toMatchObject([{ channel: 'email', address: way.address, kind: 'service' }]);
    expect((await all())[0]?.text).toContain('texts by text gateway do not leave: no credit');
  });

  test('the heartbeat is called at its interval, and not while texts do not leave', async () => {
    const calls: string[] = [];
    const server = createServer((request, response) => {
      calls.push(request.url ?? '');
      response.end();
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/beat/secret`;
    const running = start({ settings: watchSchema.parse({ heartbeatUrl: url, outageMinutes: null }) });
    for (const minute of [0, 1, 4, 5, 9, 10]) await runAt(minute, running);
    expect(calls).toHaveLength(3);
    expect(running.lastHeartbeatMs()).toBe(noonMs + 10 * minuteMs);
    await rig.text(await rig.person('ash'), null);
    for (const minute of [20, 26, 30]) await runAt(minute, running);
    expect(calls).toHaveLength(4);
    await new Promise((resolve) => server.close(resolve));
  });

  test('the schedule looks by itself', async () => {
    await rig.savePlan({ allWell: { at: '13:00' } });
    await rig.person('ash');
    start({ tick: '* * * * * *' });
    await eventually('the first look', async () => (await rig.records.marks.get('duty:last-run')) !== null);
    rig.clock.ms = noonMs + dayMs;
    await eventually('the text', async () => (await all()).some(({ kind }) => kind === 'all-well'));
  });
});
