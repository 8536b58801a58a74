import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Pile } from '../../../shared/yard/yard.ts';
import { hashToken, newToken } from '../sign-in/tokens.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addAlarm, addPile, hourMs } from '../testing/testData.ts';

let web: TestWeb;
let pile: Pile;
let token: string;
beforeEach(async () => {
  web = await openTestWeb();
  pile = await addPile(web);
  await addAlarm(web, pile);
  token = newToken();
  await web.records.alarms.saveAnswerLink({
    tokenHash: hashToken(token),
    alarmId: 'alarm-1',
    occurrence: 1,
    personId: web.people.keeper.id,
    expiresMs: testNowMs + 24 * hourMs,
  });
});
afterEach(() => web.close());

const look = (secret = token) => web.inject({ url: `/a/${secret}` });
/** What a browser sends for a form without fields and without script. */
const press = (secret = token) =>
  web.inject({
    method: 'POST',
    url: `/a/${secret}`,
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: '',
  });
const stateNow = async () => (await web.records.alarms.get('alarm-1'))!.state;

describe('the page behind the link of a text', () => {
  it('says where, what, since when, why, what to do first and the caution, with one button', async () => {
    const { body, statusCode } = await look();
    expect(statusCode).toBe(200);
    for (const said of [
      'Heap 4, bay 3: core too hot',
      'Wed 25 Nov, 11:00',
      'core: 72.4 C',
      'Open the channels.',
      'Steam burns.',
    ])
      expect(body).toContain(said);
    expect(body.match(/<button/g)).toHaveLength(1);
  });

  it('changes nothing by being looked at, however often', async () => {
    for (let i = 0; i < 5; i += 1) await look();
    await web.inject({ method: 'HEAD', url: `/a/${token}` });
    expect(await stateNow()).toBe('unacknowledged');
    expect(web.rules.events).toEqual([]);
  });

  it('acknowledges in the name of the person the text went to, without signing in', async () => {
    const response = await press();
    expect(response.statusCode).toBe(303);
    expect(response.cookies).toEqual([]);
    expect(await web.records.alarms.get('alarm-1')).toMatchObject({
      state: 'acknowledged',
      acknowledgedBy: web.people.keeper.id,
    });
    const after = await web.inject({ url: response.headers.location as string });
    expect(after.body).toContain('Acknowledged by Some keeper at Wed 25 Nov, 12:00');
    expect(after.body).not.toContain('<button');
  });

  it('pressed twice acknowledges once', async () => {
    await Promise.all([press(), press()]);
    await press();
    const { version } = (await web.records.alarms.get('alarm-1'))!;
    expect({ version, state: await stateNow() }).toEqual({ version: 2, state: 'acknowledged' });
  });

  it('says plainly that a link is unknown or too old, and then does nothing', async () => {
    expect(await look('A'.repeat(43))).toMatchObject({ statusCode: 404 });
    web.clock.ms += 24 * hourMs;
    const old = await look();
    expect(old.statusCode).toBe(410);
    expect(old.body).toContain('too old');
    await press();
    expect(await stateNow()).toBe('unacknowledged');
  });

  it('is only good for the occurrence its text was about', async () => {
    await web.close();
    web = await openTestWeb();
    await addAlarm(web, await addPile(web), { occurrence: 2 });
    const link = { alarmId: 'alarm-1', occurrence: 1, personId: web.people.keeper.id };
    const times = { expiresMs: testNowMs + hourMs };
    await web.records.alarms.saveAnswerLink({ ...link, ...times, tokenHash: hashToken(token) });
    expect((await look()).body).toContain('come again');
    await press();
    expect(await stateNow()).toBe('unacknowledged');
  });

  it('is dead once its person is disabled', async () => {
    await web.records.people.update(web.people.keeper.id, { disabled: true });
    await press();
    expect((await look()).statusCode).toBe(404);
    expect(await stateNow()).toBe('unacknowledged');
  });

  it('shows what people wrote as text, never as markup', async () => {
    await web.records.piles.update(pile.id, { name: '<img src=x onerror=alert(1)>' });
    const { body } = await look();
    expect(body).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(body).not.toContain('<img');
  });

  it('runs no script, may not be framed, is not kept and tells no other site its address', async () => {
    const { headers } = await look();
    expect(headers['content-security-policy']).toMatch(/default-src 'none'.*frame-ancestors 'none'/);
    expect(headers['content-security-policy']).not.toContain('script-src');
    expect(headers).toMatchObject({ 'cache-control': 'no-store', 'referrer-policy': 'no-referrer' });
  });

  it('cannot be guessed at speed', async () => {
    const codes = [];
    for (let i = 0; i < 40; i += 1) codes.push((await look(newToken())).statusCode);
    expect(codes.slice(0, 20).every((code) => code === 404)).toBe(true);
    expect(codes.at(-1)).toBe(429);
  });

  it('says what the text said to do first, in the language the person is texted in', async () => {
    await web.records.people.update(web.people.keeper.id, { language: 'de' });
    const firstAction = 'Stop feeding, shade it, open the cover, water lightly with cool water.';
    const times = { createdMs: testNowMs, notBeforeMs: testNowMs, expiresMs: testNowMs + hourMs };
    await web.records.messages.add([
      {
        ...{ yardId: web.yard.id, pileId: pile.id, alarmId: 'alarm-1', occurrence: 1, ...times },
        ...{ personId: web.people.keeper.id, channel: 'sms-http', address: '+441632960123' },
        ...{ idempotencyKey: 'one', text: 'x', priority: 'high', answerLink: null, firstAction },
      },
    ]);
    const { body } = await look();
    for (const said of [
      '<html lang="de">',
      'Kern zu heiß',
      'Mi., 25. Nov., 11:00',
      'Kern: 72.4 C',
      '<strong>Zuerst:</strong> Nicht füttern, beschatten',
      'Gesehen, ich kümmere mich darum',
    ])
      expect(body).toContain(said);
    await press();
    expect((await look()).body).toContain('Gesehen gemeldet von Some keeper');
    web.clock.ms += 24 * hourMs;
    expect((await look()).body).toContain('Dieser Link ist zu alt');
  });

  it('speaks Fahrenheit in a yard that does', async () => {
    await web.records.yards.update(web.yard.id, { temperatureUnit: 'F' });
    expect((await look()).body).toContain('core: 162.3 F');
  });
});
