import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import type { ExpectedView, OutlookView } from '../../../shared/api/types.ts';
import { feedstocks } from '../../../shared/compost/mix/feedstocks.ts';
import { simulateCourse } from '../../../shared/compost/pileModel/course.ts';
import { freshRichCage } from '../../../shared/compost/pileModel/scenarios.ts';
import { steadyWeather } from '../../../shared/compost/pileModel/weather.ts';
import { emptyPlan, newLine } from '../../../shared/compost/planner/plan.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, addPlacement, hourMs, reading } from '../testing/testData.ts';

const litterId = feedstocks.find(({ name }) => name === 'Broiler litter')!.id;
let web: TestWeb;
let pile: Pile;
let core: string;
let piles = 0;
beforeAll(async () => {
  web = await openTestWeb();
});
afterAll(() => web.close());
beforeEach(async () => {
  piles += 1;
  core = `urn:dev:os:32473-${piles}_core`;
  web.clock.ms = testNowMs;
  pile = await addPile(web);
  await addPlacement(web, { pileId: pile.id, channel: core, fromMs: pile.startedMs });
});

const outlook = async (): Promise<OutlookView> =>
  (await web.call('viewer', 'GET', `/api/piles/${pile.id}/outlook`)).json();

const expected = async (): Promise<ExpectedView['expected']> =>
  (await web.call('viewer', 'GET', `/api/piles/${pile.id}/expected`)).json().expected;

/** What a probe in the rich cage of the pile model says over its first days, twice an hour. */
async function readDays(days: number): Promise<void> {
  const { series } = simulateCourse(freshRichCage.parameters, {
    ...{ days, outputStepSeconds: 1800, interventions: freshRichCage.interventions },
    weatherAt: steadyWeather({ airCelsius: 12 }),
  });
  const rows = Array.from(series.coreCelsius, (value, row) =>
    reading(core, pile.startedMs + row * 1_800_000, value),
  );
  await web.series.append(rows);
  web.clock.ms = pile.startedMs + days * 24 * hourMs;
}

it('says how much more must be read while there is too little to learn from', async () => {
  expect(await outlook()).toMatchObject({ state: 'no-core', hoursRead: 0, forecast: null });
  await readDays(1);
  const { state, hoursRead, hoursNeeded, forecast } = await outlook();
  expect({ state, hoursNeeded, forecast }).toEqual({ state: 'too-early', hoursNeeded: 48, forecast: null });
  expect(hoursRead).toBeGreaterThan(20);
  expect(hoursRead).toBeLessThan(26);
}, 60_000);

it('fits the pile to its readings once for all who ask, and again when more was read or done', async () => {
  await readDays(4);
  const before = web.house.outlooks.runs;
  const answers = await Promise.all(Array.from({ length: 10 }, outlook));
  expect(web.house.outlooks.runs - before).toBe(1);
  const { forecast } = answers[0]!;
  expect(answers.every((answer) => JSON.stringify(answer) === JSON.stringify(answers[0]))).toBe(true);
  const { startMs, low, middle, high } = forecast!.path;
  expect(Math.abs(startMs - web.clock.ms)).toBeLessThan(2 * hourMs);
  expect(forecast!.horizonDays).toBe(6);
  middle.forEach((value, row) => {
    expect(low[row]!).toBeLessThanOrEqual(value);
    expect(high[row]!).toBeGreaterThanOrEqual(value);
  });
  expect(forecast!.recentErrorKelvin).toBeLessThan(1);
  expect(forecast!.ceilingCelsius).toBe(71);
}, 60_000);

it('goes by the ceiling set for this pile', async () => {
  await readDays(3);
  const limits = { 'too-hot-ceiling': { limitCelsius: 62 } };
  const change = { pileId: pile.id, overrides: limits, reason: 'seed bed', by: null, savedMs: testNowMs };
  await web.records.limits.save({ ...change, expectedVersion: 0 });
  const { forecast } = await outlook();
  expect(forecast!.ceilingCelsius).toBe(62);
  expect(forecast!.ceiling.probability).toBeGreaterThan(0.9);
}, 60_000);

it('does not guess on when the core has been silent, the pile has ended or does not heat by itself', async () => {
  await readDays(3);
  web.clock.ms += 20 * hourMs;
  expect(await outlook()).toMatchObject({ state: 'core-silent', forecast: null });
  await web.records.piles.update(pile.id, { method: 'worm-bed' });
  expect(await outlook()).toMatchObject({ state: 'not-modelled', forecast: null });
  expect(await expected()).toBeNull();
  await web.records.piles.end(pile.id, web.clock.ms);
  expect((await outlook()).state).toBe('ended');
}, 60_000);

it('says the band a usual pile of its method keeps to, once for all piles of it', async () => {
  const first = await expected();
  expect(first).toMatchObject({ from: 'method', band: { startMs: pile.startedMs } });
  const { low, middle, high } = first!.band;
  expect(Math.max(...middle)).toBeGreaterThan(50);
  middle.forEach((value, row) => {
    expect(low[row]! <= value && value <= high[row]!).toBe(true);
  });
  const before = web.house.outlooks.runs;
  pile = await addPile(web);
  expect((await expected())!.band.middle).toEqual(middle);
  expect(web.house.outlooks.runs).toBe(before);
}, 60_000);

it('draws and expects a pile as it was planned', async () => {
  const form = async () => (await web.call('viewer', 'GET', `/api/piles/${pile.id}/form`)).json();
  expect(await form()).toEqual({ form: null });
  const line = { ...newLine(emptyPlan, litterId, 'Broiler litter'), amount: 300 };
  const put = await web.call('keeper', 'PUT', `/api/piles/${pile.id}/plan`, { ...emptyPlan, lines: [line] });
  expect(put.statusCode).toBe(200);
  const planned = (await form()).form;
  expect(planned.outline.radius).toBeCloseTo((3.81 - 0.1) / (2 * Math.PI), 3);
  expect(planned.channels.length).toBeGreaterThan(0);
  expect(planned.coreProbe.z).toBeGreaterThan(0);
  expect(await expected()).toMatchObject({ from: 'plan' });
  const refused = await web.call('keeper', 'PUT', `/api/piles/${pile.id}/plan`, { ...emptyPlan, lines: 3 });
  expect(refused.statusCode).toBe(400);
}, 60_000);
