import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { WallView } from '../../../shared/api/types.ts';
import { wallSchema } from '../../../shared/api/wall.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addAlarm, addPile, addPlacement, hourMs, reading, statusOf } from '../testing/testData.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

async function wall(): Promise<WallView> {
  web.house.wallCache.forget();
  const response = await web.call('wall', 'GET', '/api/wall');
  expect(response.statusCode).toBe(200);
  return wallSchema.parse(response.json());
}

const hour = (index: number) => Math.floor(testNowMs / hourMs) * hourMs - index * hourMs;

describe('the wall', () => {
  it('shows each open pile as last judged, with the age of what it shows', async () => {
    const pile = await addPile(web);
    await web.records.statuses.save(statusOf(pile));
    const [shown] = (await wall()).piles;
    expect(shown).toMatchObject({
      name: 'Heap 4',
      place: 'bay 3',
      stage: 'hot',
      core: { celsius: 64.2, timeMs: testNowMs - 60_000 },
      moisture: { fraction: 0.58, timeMs: testNowMs - 120_000 },
      trendCelsiusPerHour: 0.4,
      sanitisationProgress: 0.97,
    });
  });

  it('shows nothing rather than a zero or a value without its time', async () => {
    const [never, timeless] = [await addPile(web, { name: 'A' }), await addPile(web, { name: 'B' })];
    await web.records.statuses.save(statusOf(timeless, { coreTimeMs: null, moistureFraction: null }));
    const { piles, dataMs, yard } = await wall();
    expect(piles.map(({ id, core, moisture }) => ({ id, core, moisture }))).toEqual([
      { id: never.id, core: null, moisture: null },
      { id: timeless.id, core: null, moisture: null },
    ]);
    expect([dataMs, yard.air]).toEqual([null, null]);
  });

  it('puts the worst pile first, the unacknowledged before the acknowledged, the quiet by name', async () => {
    const names = ['Heap 10', 'Heap 9', 'seen', 'low', 'worst'];
    const piles = new Map<string, Awaited<ReturnType<typeof addPile>>>();
    for (const name of names) piles.set(name, await addPile(web, { name }));
    await addAlarm(web, piles.get('seen')!, { id: 'a', code: 'A3', priority: 'high', state: 'acknowledged' });
    await addAlarm(web, piles.get('low')!, { id: 'b', code: 'B3', priority: 'low' });
    await addAlarm(web, piles.get('worst')!, { id: 'c', code: 'C3', priority: 'high' });
    const { piles: shown, unacknowledgedCount } = await wall();
    expect(shown.map(({ name }) => name)).toEqual(['worst', 'seen', 'low', 'Heap 9', 'Heap 10']);
    expect(unacknowledgedCount).toBe(2);
    expect(shown[0]!.alarms).toEqual([
      {
        ...{ id: 'c', code: 'C3', condition: 'too-hot-ceiling', name: 'Too hot: ceiling' },
        ...{ state: 'unacknowledged', priority: 'high', sinceMs: testNowMs - hourMs },
      },
    ]);
  });

  it('leaves out shelved alarms and ended piles, and counts alarms about the yard itself', async () => {
    const pile = await addPile(web);
    await addAlarm(web, pile, {
      state: 'shelved',
      shelvedUntilMs: testNowMs + hourMs,
      hiddenReason: 'probe out',
    });
    const yardAlarm = { id: 'y', code: 'Y4', subject: { kind: 'yard', id: web.yard.id } } as const;
    await addAlarm(web, pile, { ...yardAlarm, condition: 'service-broker-away' });
    const gone = await addPile(web, { name: 'gone' });
    await web.records.piles.end(gone.id, testNowMs - hourMs);
    const view = await wall();
    expect(view.piles.map(({ name, alarms }) => [name, alarms.length])).toEqual([['Heap 4', 0]]);
    expect([view.yardAlarms.length, view.unacknowledgedCount]).toEqual([1, 1]);
  });

  it('hangs an alarm about a probe on the pile it stands in, and on the yard once it stands in none', async () => {
    const pile = await addPile(web);
    const { id, channel } = await addPlacement(web, { pileId: pile.id });
    const subject = { kind: 'probe', id: channel.split('_')[0]! } as const;
    await addAlarm(web, pile, { subject, condition: 'probe-bad-values' });
    const places = async () => {
      const { piles, yardAlarms } = await wall();
      return [piles[0]!.alarms.length, yardAlarms.length];
    };
    expect(await places()).toEqual([1, 0]);
    await web.records.placements.end(id, testNowMs - 1);
    expect(await places()).toEqual([0, 1]);
  });

  it('draws the hotter of two core channels hour by hour, and leaves gaps open', async () => {
    const pile = await addPile(web);
    const [one, two] = ['urn:dev:mac:0024befffe804ff1_a', 'urn:dev:mac:0024befffe804ff1_b'];
    for (const channel of [one, two]) await addPlacement(web, { pileId: pile.id, channel });
    await web.series.append([
      reading(one, hour(3) + 60_000, 60),
      reading(one, hour(3) + 120_000, 62),
      reading(two, hour(3) + 60_000, 58),
      reading(two, hour(1) + 60_000, 66),
      reading(one, hour(0), 99, { quality: 'bad', reason: 'power-on-value' }),
      reading(one, hour(60), 40),
    ]);
    expect((await wall()).piles[0]!.spark).toEqual([
      { startMs: hour(3), min: 60, max: 62, mean: 61, source: 0 },
      { startMs: hour(1), min: 66, max: 66, mean: 66, source: 1 },
    ]);
  });

  it('never draws what a probe measured in the pile it stood in before', async () => {
    const [before, now] = [await addPile(web, { name: 'before' }), await addPile(web, { name: 'now' })];
    const movedMs = hour(2) + 1_800_000;
    const { channel } = await addPlacement(web, { pileId: before.id, toMs: movedMs });
    await addPlacement(web, { pileId: now.id, fromMs: movedMs });
    await web.series.append([
      reading(channel, hour(3) + 1, 70),
      reading(channel, hour(2) + 1, 70),
      reading(channel, hour(1) + 1, 20),
    ]);
    const sparks = Object.fromEntries(
      (await wall()).piles.map(({ name, spark }) => [name, spark.map(({ mean }) => mean)]),
    );
    expect(sparks).toEqual({ before: [70], now: [20] });
  });

  it('shows the points of the section and the yard’s air from good readings only', async () => {
    const pile = await addPile(web);
    const core = await addPlacement(web, { pileId: pile.id });
    const air = await addPlacement(web, { channel: 'urn:dev:mac:0024befffe804ff1_air', position: 'air' });
    await web.series.append([
      reading(core.channel, testNowMs - 5000, 61),
      reading(core.channel, testNowMs - 1000, 85, { quality: 'bad', reason: 'power-on-value' }),
      reading(air.channel, testNowMs - 9000, 7.5),
    ]);
    const { yard, piles, dataMs } = await wall();
    expect(piles[0]!.points).toEqual([
      { position: 'core', depthMetres: 0.5, celsius: 61, timeMs: testNowMs - 5000 },
    ]);
    expect(yard.air).toEqual({ celsius: 7.5, timeMs: testNowMs - 9000 });
    expect(dataMs).toBe(testNowMs - 5000);
  });

  it('answers with the asked piles alone, and with what belongs to the yard', async () => {
    const [one, other] = [await addPile(web, { name: 'one' }), await addPile(web, { name: 'other' })];
    await addAlarm(web, one);
    const response = await web.call('wall', 'GET', `/api/wall?piles=${other.id},gone`);
    const { piles, unacknowledgedCount } = wallSchema.parse(response.json());
    expect([piles.map(({ name }) => name), unacknowledgedCount]).toEqual([['other'], 1]);
    expect((await web.call('wall', 'GET', '/api/wall?piles=')).statusCode).toBe(400);
  });

  it('adds up a day of rain from the yard’s gauge, and knows silence from a dry day', async () => {
    expect((await wall()).yard.rain).toBeNull();
    const channel = 'urn:dev:mac:0024befffe804ff1_rain';
    await addPlacement(web, { channel, position: 'air', quantity: 'other', depthMetres: null });
    expect((await wall()).yard.rain).toBeNull();
    const fallen = [0.0002, 0, 0.0031, 0.5].map((metres, index) => [
      hour(index === 3 ? 30 : index * 8),
      metres,
    ]);
    await web.series.append(fallen.map(([timeMs, metres]) => reading(channel, timeMs!, metres!)));
    expect((await wall()).yard.rain).toEqual({ millimetres: 3.3, timeMs: hour(0) });
  });

  it('is made once for many screens asking at once, and anew after a change', async () => {
    let asked = 0;
    const { list } = web.records.piles;
    web.records.piles.list = (...parameters) => {
      asked += 1;
      return list(...parameters);
    };
    await Promise.all(Array.from({ length: 20 }, () => web.call('wall', 'GET', '/api/wall')));
    expect(asked).toBe(1);
    web.house.live.announce([{ kind: 'yard', yardId: web.yard.id }]);
    await web.call('wall', 'GET', '/api/wall');
    expect(asked).toBe(2);
  });
});
