import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { heatRecordSchema, recordStandingSchema } from '../../../shared/api/records.ts';
import type { HeatRecordView, RecordStanding } from '../../../shared/api/types.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { readPast } from '../../rules/readPast.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, addPlacement, hourMs, reading } from '../testing/testData.ts';

const channel = 'urn:dev:mac:0024befffe804ff1_core';
let web: TestWeb;
let pile: Pile;

beforeEach(async () => {
  web = await openTestWeb();
  Object.assign(web.house.rules, {
    readPast: (pileId: string, span: { fromMs: number; toMs: number }) =>
      readPast(
        { nowMs: testNowMs, defaultIntervalSeconds: 300, records: web.records, series: web.series },
        pileId,
        span,
      ),
  });
  pile = await addPile(web, { method: 'hot-bin' });
  await addPlacement(web, { pileId: pile.id, fromMs: pile.startedMs });
  // Four days at 60 C, five hours of silence in the sixth day.
  const hours = Array.from({ length: 10 * 24 }, (_, hour) => hour).filter(
    (hour) => hour < 130 || hour >= 135,
  );
  await web.series.append(
    hours.flatMap((hour) =>
      [10, 40].map((minute) =>
        reading(
          channel,
          pile.startedMs + hour * hourMs + minute * 60_000,
          hour >= 24 && hour < 120 ? 60 : 45,
        ),
      ),
    ),
  );
});
afterEach(() => web.close());

const recordOf = async (id = pile.id): Promise<HeatRecordView> =>
  (await web.call('viewer', 'GET', `/api/piles/${id}/record`)).json();

describe('a heat record', () => {
  it('has every rule of the method, its evidence, gaps, hours, journal and checks of its probes', async () => {
    await web.call('keeper', 'PUT', '/api/calibrations', {
      ...{ channel, gain: 1, offset: 0.2, calibratedMs: pile.startedMs, dueMs: null },
    });
    const record = await recordOf();
    expect(heatRecordSchema.safeParse(record).error).toBeUndefined();
    const usual = record.results.find(({ ruleId }) => ruleId === record.chosenRuleId)!;
    expect(usual).toMatchObject({ ruleId: 'us-pfrp-in-vessel', outcome: 'consistent' });
    expect(usual.evidence[0]!.hours).toBeCloseTo(95, 0);
    expect(record.results.find(({ ruleId }) => ruleId === 'de-bioabfv')!.outcome).toBe('not-yet');
    expect(record.gaps.map(({ fromMs, toMs }) => (toMs - fromMs) / hourMs)).toContain(5);
    expect(record.hours.startsMs.length).toBe(Object.values(record.hours.means)[0]!.length);
    expect(record.calibrations.map((one) => one.channel)).toEqual([channel]);
  });

  it('goes by the rule a keeper chose for this kind of pile, and refuses one that cannot apply', async () => {
    const choose = (who: 'viewer' | 'keeper', ruleId: string) =>
      web.call(who, 'PUT', '/api/records/rule', { method: 'hot-bin', ruleId });
    expect((await choose('viewer', 'de-bioabfv')).statusCode).toBe(403);
    const refused = (await choose('keeper', 'us-pfrp-windrow')).json();
    expect([refused.status, refused.errors[0].pointer]).toEqual([400, '#/ruleId']);
    expect((await choose('keeper', 'de-bioabfv')).json()).toEqual({ done: true });
    expect((await recordOf()).chosenRuleId).toBe('de-bioabfv');
    expect((await web.records.audit.list(web.yard.id, 1))[0]).toMatchObject({ detail: 'de-bioabfv' });
  });

  it('is listed for many piles at once, with nothing asked where no rule applies', async () => {
    const worms = await addPile(web, { name: 'Bed', method: 'worm-bed' });
    const list = await web.call('viewer', 'GET', `/api/records?piles=${pile.id},${worms.id}`);
    const standings = list.json() as RecordStanding[];
    expect(standings.every((one) => recordStandingSchema.safeParse(one).success)).toBe(true);
    expect(standings.map(({ standing }) => standing?.outcome ?? null)).toEqual(['consistent', null]);
    const tooMany = Array.from({ length: 21 }, (_, index) => `p${index}`).join();
    expect((await web.call('viewer', 'GET', `/api/records?piles=${tooMany}`)).statusCode).toBe(400);
  });

  it('of an ended pile is read as it was when it ended', async () => {
    const endedMs = pile.startedMs + 60 * hourMs;
    await web.call('keeper', 'POST', `/api/piles/${pile.id}/end`, { endedMs });
    const record = await recordOf();
    expect(record.nowMs).toBe(endedMs - 1);
    expect(record.results[0]!.outcome).toBe('not-yet');
    expect(Math.max(...record.hours.startsMs)).toBeLessThan(endedMs);
  });
});
