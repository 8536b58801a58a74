import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { pilePageSchema } from '../../../shared/api/pilePage.ts';
import { seriesSchema } from '../../../shared/api/series.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addAlarm, addPile, addPlacement, hourMs, reading, statusOf } from '../testing/testData.ts';

let web: TestWeb;
let pile: Pile;
beforeEach(async () => {
  web = await openTestWeb();
  pile = await addPile(web);
});
afterEach(() => web.close());

const page = async (who: 'viewer' | 'keeper' | 'owner' = 'keeper') => {
  const response = await web.call(who, 'GET', `/api/piles/${pile.id}/page`);
  return pilePageSchema.strict().parse(response.json());
};
const act = (who: 'keeper' | 'owner', action: string, body?: object) =>
  web.call(who, 'POST', `/api/alarms/alarm-1/${action}`, body);

describe('the page of a pile', () => {
  it('carries status, channels, alarms with evidence and words, journal and limits', async () => {
    await web.records.statuses.save(statusOf(pile));
    const { channel } = await addPlacement(web, { pileId: pile.id });
    await web.series.append([reading(channel, testNowMs - 1000, 72.4)]);
    await addAlarm(web, pile);
    await web.call('keeper', 'POST', `/api/piles/${pile.id}/journal`, { kind: 'turned', timeMs: testNowMs });
    const view = await page();
    expect(view.status).toMatchObject({ stage: 'hot', coreCelsius: 64.2 });
    expect(view.channels[0]).toMatchObject({ position: 'core', lastGood: { value: 72.4, quality: 'good' } });
    expect(view.alarms[0]).toMatchObject({
      evidence: [{ label: 'core', value: 72.4, unit: 'C' }],
      words: { firstAction: 'Open the channels.', cautions: ['Steam burns.'] },
    });
    expect(view.journal[0]).toMatchObject({ kind: 'turned', by: 'Some keeper' });
    expect(view.limits.conditions.length).toBeGreaterThan(3);
  });

  it('also shows alarms of the probes in it, and of no other probe', async () => {
    const own = 'urn:dev:mac:0024befffe804ff1';
    const near = `${own.slice(0, -1)}2`;
    await addPlacement(web, { pileId: pile.id, channel: `${own}_core` });
    for (const [index, id] of [own, near].entries())
      await addAlarm(web, pile, {
        ...{ id: `p${index}`, code: `P${index + 3}`, condition: 'probe-silent' },
        subject: { kind: 'probe', id },
      });
    expect((await page()).alarms.map(({ id }) => id)).toEqual(['p0']);
  });

  it('offers each role only what it may do with an alarm now', async () => {
    await addAlarm(web, pile);
    const offered = async (who: 'viewer' | 'keeper' | 'owner') => (await page(who)).alarms[0]!.actions;
    expect(await offered('viewer')).toEqual([]);
    expect(await offered('keeper')).toEqual(['acknowledge', 'shelve']);
    expect(await offered('owner')).toEqual(['acknowledge', 'shelve', 'take-out-of-service']);
    expect((await page('viewer')).mayWrite).toBe(false);
  });

  it('of another yard is not there', async () => {
    const yard = await web.records.yards.create({
      name: 'B',
      timeZone: 'UTC',
      temperatureUnit: 'C',
      altitudeMetres: 0,
    });
    const other = await addPile(web, { yardId: yard.id });
    for (const path of ['page', 'journal', 'limits', 'series?fromMs=0&toMs=1'])
      expect((await web.call('owner', 'GET', `/api/piles/${other.id}/${path}`)).statusCode).toBe(404);
    expect((await web.call('owner', 'PATCH', `/api/piles/${other.id}`, { name: 'mine' })).statusCode).toBe(
      404,
    );
  });
});

describe('an alarm', () => {
  it('is acknowledged, shelved for a time with a reason, and taken back, each by name', async () => {
    await addAlarm(web, pile);
    expect((await act('keeper', 'acknowledge')).json()).toMatchObject({
      state: 'acknowledged',
      acknowledgedBy: 'Some keeper',
    });
    const shelved = await act('keeper', 'shelve', { minutes: 90, reason: 'probe pulled for turning' });
    expect(shelved.json()).toMatchObject({
      state: 'shelved',
      shelvedUntilMs: testNowMs + 90 * 60_000,
      hiddenReason: 'probe pulled for turning',
      actions: ['shelve', 'unshelve'],
    });
    expect((await act('keeper', 'unshelve')).json().state).toBe('unacknowledged');
    const out = await act('owner', 'take-out-of-service', { reason: 'pile moved' });
    expect(out.json().state).toBe('out-of-service');
    expect((await act('owner', 'return-to-service')).json().state).toBe('unacknowledged');
    const { history } = await page();
    expect(history.map(({ event, by }) => `${event} ${by}`).at(-1)).toBe('acknowledge Some keeper');
  });

  it('takes a press that comes late or twice for what it was: this alarm, from then on', async () => {
    await addAlarm(web, pile, { occurrence: 3 });
    const seen = { occurrence: 3, pressedMs: testNowMs - 60_000 };
    for (const _sending of [1, 2])
      expect((await act('keeper', 'acknowledge', seen)).json()).toMatchObject({ state: 'acknowledged' });
    const shelving = { ...seen, minutes: 60, reason: 'watering now' };
    for (const _sending of [1, 2])
      expect((await act('keeper', 'shelve', shelving)).json()).toMatchObject({
        state: 'shelved',
        shelvedUntilMs: testNowMs + 59 * 60_000,
      });
    expect(web.rules.events.map(({ kind }) => kind).slice(-2)).toEqual(['acknowledge', 'shelve']);
  });

  it('does nothing to an alarm that came since the button was pressed', async () => {
    await addAlarm(web, pile, { occurrence: 4 });
    const stale = { occurrence: 3, pressedMs: testNowMs - 3_600_000 };
    const answers = [
      await act('keeper', 'acknowledge', stale),
      await act('keeper', 'shelve', { ...stale, minutes: 240, reason: 'watering' }),
      await act('keeper', 'shelve', { ...stale, occurrence: 4, minutes: 30, reason: 'watering' }),
    ];
    expect(answers.map((answer) => answer.json().code)).toEqual(Array(3).fill('changed-meanwhile'));
    expect((await page()).alarms[0]!.state).toBe('unacknowledged');
  });

  it('refuses what makes no sense now, in words, and unreasonable times', async () => {
    await addAlarm(web, pile);
    const refused = await act('keeper', 'unshelve');
    expect(refused.json()).toMatchObject({ status: 409, detail: 'this alarm is not shelved' });
    const long = await act('keeper', 'shelve', { minutes: 999_999, reason: 'holiday' });
    expect(long.json().detail).toBe('minutes is 999999; allowed: at most 10080');
    const silent = await act('keeper', 'shelve', { minutes: 60, reason: ' ' });
    expect(silent.json().errors[0].pointer).toBe('#/reason');
  });
});

describe('the journal', () => {
  const add = (entry: object) => web.call('keeper', 'POST', `/api/piles/${pile.id}/journal`, entry);

  it('tells rules of the pile at once', async () => {
    await add({ kind: 'watered', timeMs: testNowMs, value: 40, note: 'two cans' });
    expect(web.rules.nudges).toBe(1);
  });

  it.each([
    [{ kind: 'hand-reading', timeMs: testNowMs }, '#/value'],
    [{ kind: 'hand-reading', timeMs: testNowMs, value: 400 }, '#/value'],
    [{ kind: 'squeeze-test', timeMs: testNowMs, value: 6 }, '#/value'],
    [{ kind: 'turned', timeMs: testNowMs, value: 3 }, '#/value'],
    [{ kind: 'burnt', timeMs: testNowMs }, '#/kind'],
    [{ kind: 'turned', timeMs: testNowMs + hourMs }, '#/timeMs'],
    [{ kind: 'turned', timeMs: 253_402_300_799_999 }, '#/timeMs'],
    [{ kind: 'turned', timeMs: 1.5 }, '#/timeMs'],
  ])('refuses %j and names the field', async (entry, pointer) => {
    const { status, errors } = (await add(entry)).json();
    expect([status, errors[0].pointer]).toEqual([400, pointer]);
    expect(await web.records.journal.list(pile.id)).toEqual([]);
  });
});

describe('the curves', () => {
  const channel = 'urn:dev:mac:0024befffe804ff1_core';
  const curves = async (query: string) => {
    const response = await web.call('viewer', 'GET', `/api/piles/${pile.id}/series?${query}`);
    expect(response.statusCode).toBe(200);
    return seriesSchema.strict().parse(response.json());
  };

  it('come as columns with quality flags, only from while the probe stood in the pile', async () => {
    const fromMs = testNowMs - 2 * hourMs;
    await addPlacement(web, { pileId: pile.id, fromMs, toMs: testNowMs - hourMs });
    await web.series.append([
      reading(channel, fromMs - 1, 10),
      reading(channel, fromMs, 60),
      reading(channel, fromMs + 5, 85, { quality: 'bad', reason: 'power-on-value' }),
      reading(channel, testNowMs - hourMs, 11),
    ]);
    const view = await curves(`fromMs=${testNowMs - 24 * hourMs}&toMs=${testNowMs}`);
    expect(view.step).toBe('raw');
    expect(view.channels.map(({ raw }) => raw)).toEqual([
      { timesMs: [fromMs, fromMs + 5], values: [60, 85], quality: [0, 2] },
    ]);
    const good = await curves(`fromMs=${fromMs}&toMs=${testNowMs}&quality=good`);
    expect(good.channels[0]!.raw!.values).toEqual([60]);
  });

  it('are thinned to what is asked for and keep the highest and the lowest', async () => {
    await addPlacement(web, { pileId: pile.id });
    const many = Array.from({ length: 5000 }, (_, i) =>
      reading(channel, testNowMs - 5_000_000 + i * 1000, i === 2500 ? 79 : 50 + (i % 7)),
    );
    await web.series.append(many);
    const { raw } = (await curves(`fromMs=${testNowMs - 5_000_000}&toMs=${testNowMs}&maxPoints=200`))
      .channels[0]!;
    expect(raw!.timesMs.length).toBeLessThanOrEqual(200);
    expect([Math.max(...raw!.values), Math.min(...raw!.values)]).toEqual([79, 50]);
  });

  it('of a long time are hours, then days', async () => {
    await addPlacement(web, { pileId: pile.id });
    await web.series.append([reading(channel, testNowMs - 24 * hourMs, 60)]);
    const day = 24 * hourMs;
    const months = await curves(`fromMs=${testNowMs - 30 * day}&toMs=${testNowMs}`);
    expect(months.step).toBe('hour');
    expect(months.channels[0]!.rollups).toMatchObject({ means: [60], counts: [1] });
    expect((await curves(`fromMs=${testNowMs - 300 * day}&toMs=${testNowMs}`)).step).toBe('day');
  });

  it.each([
    '',
    'fromMs=5&toMs=5',
    'fromMs=x&toMs=9',
    'fromMs=0&toMs=9&maxPoints=1000000',
    'fromMs=0&toMs=9&step=week',
  ])('refuse the question "%s"', async (query) => {
    const response = await web.call('viewer', 'GET', `/api/piles/${pile.id}/series?${query}`);
    expect(response.statusCode).toBe(400);
    expect(response.headers['content-type']).toContain('application/problem+json');
  });
});

describe('starting and ending a pile', () => {
  it('writes both into its journal and frees its probes', async () => {
    const body = { name: 'New', place: 'bay 9', method: 'hot-bin', startedMs: testNowMs - hourMs };
    const { id } = (await web.call('keeper', 'POST', '/api/piles', body)).json();
    await addPlacement(web, { pileId: id, fromMs: testNowMs - hourMs });
    await web.call('keeper', 'POST', `/api/piles/${id}/end`, { endedMs: testNowMs });
    expect((await web.records.journal.list(id)).map(({ kind }) => kind)).toEqual(['built', 'finished']);
    expect((await web.records.placements.forPile(id))[0]!.toMs).toBe(testNowMs);
    const early = await web.call('keeper', 'POST', `/api/piles/${pile.id}/end`, { endedMs: 5 });
    expect(early.json().errors[0].pointer).toBe('#/endedMs');
  });
});
