import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { decodePast } from '../../../shared/api/past.ts';
import { type ReplayView, replaySchema } from '../../../shared/api/replay.ts';
import { replayPast } from '../../../shared/rules/replay.ts';
import type { ReplayJob } from '../../../shared/rules/replayJob.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { readPast } from '../../rules/readPast.ts';
import { createReplayRunner } from '../replay/runReplay.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, addPlacement, hourMs, reading } from '../testing/testData.ts';

const dayMs = 24 * hourMs;
const channel = 'urn:dev:mac:0024befffe804ff1_core';
let web: TestWeb;
let pile: Pile;

/** Nine days at 60 C with three climbs to 74 C, four hours each. */
const celsiusAt = (hours: number): number =>
  [60, 110, 170].some((from) => hours >= from && hours < from + 4) ? 74 : 60;

beforeEach(async () => {
  web = await openTestWeb();
  const sources = { nowMs: testNowMs, defaultIntervalSeconds: 300 };
  // Real reading of the past beside the test's own rules, which judge nothing.
  Object.assign(web.house.rules, {
    readPast: (pileId: string, span: { fromMs: number; toMs: number }) =>
      readPast({ ...sources, records: web.records, series: web.series }, pileId, span),
  });
  pile = await addPile(web);
  await addPlacement(web, { pileId: pile.id, fromMs: pile.startedMs });
  const rows = Array.from({ length: 9 * 24 * 6 }, (_, row) => row / 6);
  await web.series.append(
    rows.map((hours) => reading(channel, pile.startedMs + dayMs + hours * hourMs, celsiusAt(hours))),
  );
});
afterEach(() => web.close());

const replay = (body: object, who: 'viewer' | 'keeper' = 'viewer') =>
  web.call(who, 'POST', `/api/piles/${pile.id}/replay`, {
    ...{ fromMs: pile.startedMs, toMs: testNowMs },
    ...body,
  });

it('a browser gets the same past as bytes and comes to the same alarms by itself', async () => {
  const answer = await web.call(
    'viewer',
    'GET',
    `/api/piles/${pile.id}/past?fromMs=${pile.startedMs}&toMs=${testNowMs}`,
  );
  expect(answer.headers['content-type']).toBe('application/octet-stream');
  const { past, limits } = decodePast(new Uint8Array(answer.rawPayload).buffer);
  const view: ReplayView = (await replay({})).json();
  const shown = replayPast(past, limits).alarms.filter((alarm) => alarm.shown);
  expect(shown.map(({ startMs }) => startMs)).toEqual(view.current.alarms.map(({ startMs }) => startMs));
  expect(shown.length).toBeGreaterThanOrEqual(3);
});

describe('a replay', () => {
  it('judges the stored past by the limits in force and by the defaults', async () => {
    const answer = await replay({});
    const view: ReplayView = replaySchema.parse(answer.json());
    expect(view.readings).toBe(9 * 24 * 6);
    const ceiling = view.current.alarms.filter(({ condition }) => condition === 'too-hot-ceiling');
    expect(ceiling.map(({ startMs }) => (startMs - pile.startedMs - dayMs) / hourMs)).toEqual([
      60.5, 110.5, 170.5,
    ]);
    expect([view.troubles.length, view.current.missed, view.currentVersion]).toEqual([3, 0, 0]);
    expect(view.defaults).toEqual(view.current);
    expect([view.candidate, view.suggestions]).toEqual([null, []]);
  });

  it('compares limits on trial with the ones in force and saves nothing', async () => {
    const overrides = {
      'too-hot-ceiling': { limitCelsius: 76 },
      'too-hot-early-notice': { enabled: false },
      'too-hot-heading-there': { enabled: false },
    };
    const view: ReplayView = (await replay({ overrides })).json();
    expect(view.candidate!.missed).toBe(3);
    expect(view.againstCurrent!.newlyMissed.length).toBe(3);
    expect(view.againstCurrent!.gone.map(({ condition }) => condition)).toContain('too-hot-ceiling');
    expect((await web.records.limits.current(pile.id)).version).toBe(0);
  });

  it('counts only the stretch asked for', async () => {
    const fromMs = pile.startedMs + dayMs + 100 * hourMs;
    const view: ReplayView = (await replay({ fromMs })).json();
    const ceiling = view.current.alarms.filter(({ condition }) => condition === 'too-hot-ceiling');
    expect(ceiling.length).toBe(2);
  });

  it('holds limits against troubles people marked, and suggests', async () => {
    const startMs = pile.startedMs + dayMs + 111 * hourMs;
    const marked = { name: 'steam', startMs, endMs: startMs + hourMs, warnedBy: ['too-hot-ceiling'] };
    const view: ReplayView = (await replay({ troubles: [marked], suggest: ['too-hot-ceiling'] })).json();
    expect(view.current.warnings).toMatchObject([{ trouble: { name: 'steam' }, minutesBefore: 30 }]);
    expect(view.suggestions[0]!.says).toMatch(/^(With|Nothing)/);
  });

  it.each([
    [{ toMs: 0 }, '#/toMs'],
    [{ overrides: { 'too-hot-ceiling': { limitCelsius: 99 } } }, '#/overrides/too-hot-ceiling/limitCelsius'],
    [{ suggest: ['too-lukewarm'] }, '#/suggest/0'],
  ])('refuses %j, naming the field', async (body, pointer) => {
    const { status, errors } = (await replay(body)).json();
    expect([status, errors[0].pointer]).toEqual([400, pointer]);
  });

  it('is given up when it takes too long or nobody waits for it any more', async () => {
    const past = (await web.house.rules.readPast!(pile.id, { fromMs: pile.startedMs, toMs: testNowMs }))!;
    const job: ReplayJob = {
      ...{ past, current: { version: 0, overrides: {} }, candidate: null, countFromMs: 0, troubles: null },
      ...{ textsFrom: 'medium', suggest: [], temperatureUnit: 'C' },
    };
    const clone = () => structuredClone(job);
    await expect(createReplayRunner(1).run(clone(), new AbortController().signal)).rejects.toThrow(
      /given up/,
    );
    const gone = new AbortController();
    const running = createReplayRunner().run(clone(), gone.signal);
    gone.abort(new Error('gone'));
    await expect(running).rejects.toThrow('gone');
  });
});
