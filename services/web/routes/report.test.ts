import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Alarm, AlarmTransition } from '../../../shared/alarms/alarm.ts';
import { newAlarm } from '../../../shared/alarms/newAlarm.ts';
import { alarmReportSchema } from '../../../shared/api/report.ts';
import type { NewMessage } from '../../records/port.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const dayMs = 86_400_000;
const span = `fromMs=${testNowMs - 30 * dayMs}&toMs=${testNowMs}`;
const ask = (who: 'keeper' | 'viewer' = 'keeper', query = span) =>
  web.call(who, 'GET', `/api/report?${query}`);

/** An alarm that has stood for three days, its text and the answer to it. */
async function addAlarm() {
  const atMs = testNowMs - 3 * dayMs;
  const pile = await web.records.piles.create({
    yardId: web.yard.id,
    name: 'Cage 2',
    place: 'bay 3',
    method: 'static-cage',
    startedMs: atMs,
  });
  const base = newAlarm(web.yard.id, { kind: 'pile', id: pile.id }, 'too-hot-ceiling');
  const alarm: Alarm = {
    ...base,
    ...{ state: 'acknowledged', occurrence: 1, code: 'K7', activeSinceMs: atMs, version: 1 },
  };
  const step = { alarmId: alarm.id, occurrence: 1, note: null, limitsVersion: 0, evidence: [] };
  const raised: AlarmTransition = {
    ...step,
    atMs,
    event: 'became-active',
    from: 'normal',
    to: 'unacknowledged',
    by: null,
  };
  const answered: AlarmTransition = {
    ...step,
    ...{ atMs: atMs + 3_600_000, event: 'acknowledge', from: 'unacknowledged', to: 'acknowledged' },
    by: web.people.keeper.id,
  };
  const text: NewMessage = {
    ...{ yardId: web.yard.id, pileId: pile.id, alarmId: alarm.id, occurrence: 1, idempotencyKey: 'one' },
    ...{ personId: web.people.keeper.id, channel: 'sms-http', address: '+441632960123', text: 'hot' },
    ...{ priority: 'high', createdMs: atMs, notBeforeMs: atMs, expiresMs: testNowMs, answerLink: null },
  };
  await web.records.alarms.commit({
    ...{ alarms: [alarm], transitions: [raised, answered], messages: [text], statuses: [], marks: [] },
  });
  return alarm;
}

it('tells a month of alarms with names, and lists what is stale now', async () => {
  const alarm = await addAlarm();
  await web.call('keeper', 'POST', '/api/messages/test', { personId: web.people.keeper.id });
  const answer = await ask();
  expect(answer.statusCode).toBe(200);
  const report = alarmReportSchema.parse(answer.json());
  expect(report).toMatchObject({ texts: 1, texted: 1, acted: 1, staleInSpan: 1, timeZone: 'Europe/London' });
  expect(report.people[0]).toMatchObject({ name: 'Some keeper', texts: 1 });
  expect(report.worst).toMatchObject([{ subject: { name: 'Cage 2' }, activations: 1, hoursStanding: 72 }]);
  expect(report.staleNow).toMatchObject([{ id: alarm.id, actions: expect.arrayContaining(['shelve']) }]);
});

it('is for keepers, of a sensible span', async () => {
  expect((await ask('viewer')).statusCode).toBe(403);
  const backwards = await ask('keeper', `fromMs=${testNowMs}&toMs=${testNowMs}`);
  expect(backwards.statusCode).toBe(400);
  expect(JSON.stringify(backwards.json())).toMatch(/400 days/);
});

it('shows an alarm’s history, newest first, with the names of those who did something', async () => {
  const { id } = await addAlarm();
  const history = (await web.call('viewer', 'GET', `/api/alarms/${id}/history`)).json();
  expect(history).toMatchObject([
    { event: 'acknowledge', by: 'Some keeper', to: 'acknowledged' },
    { event: 'became-active', by: null, to: 'unacknowledged' },
  ]);
});
