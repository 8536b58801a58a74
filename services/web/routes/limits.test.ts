import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { LimitsView } from '../../../shared/api/types.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';
import { addPile } from '../testing/testData.ts';

let web: TestWeb;
let pile: Pile;
beforeEach(async () => {
  web = await openTestWeb();
  pile = await addPile(web);
});
afterEach(() => web.close());

const save = (overrides: object, expectedVersion = 0) =>
  web.call('keeper', 'PUT', `/api/piles/${pile.id}/limits`, {
    overrides,
    expectedVersion,
    reason: 'hotter mix',
  });
const ceiling = (view: LimitsView) =>
  view.conditions
    .find(({ condition }) => condition === 'too-hot-ceiling')!
    .parameters.find(({ key }) => key === 'limitCelsius')!;

describe('limits', () => {
  it('start as the method’s defaults, each with unit, range and what it means', async () => {
    const view: LimitsView = (await web.call('viewer', 'GET', `/api/piles/${pile.id}/limits`)).json();
    expect(view.current.version).toBe(0);
    expect(ceiling(view)).toMatchObject({
      unit: 'C',
      kind: 'number',
      default: 71,
      value: 71,
      minimum: 30,
      maximum: 79,
    });
    expect(ceiling(view).description).toMatch(/\w/);
  });

  it('are saved as what differs, with a reason, in versions, and leave a line in the trail', async () => {
    const overrides = { 'too-hot-ceiling': { limitCelsius: 68, deadbandCelsius: 2 } };
    const view: LimitsView = (await save(overrides)).json();
    expect(view.current).toMatchObject({ version: 1, reason: 'hotter mix', by: 'Some keeper' });
    expect(view.current.overrides).toEqual({ 'too-hot-ceiling': { limitCelsius: 68 } });
    expect(ceiling(view)).toMatchObject({ default: 71, value: 68 });
    const [line] = await web.records.audit.list(web.yard.id, 1);
    expect(line).toMatchObject({
      action: 'saved limits version 1',
      target: 'Heap 4',
      by: web.people.keeper.id,
    });
    expect(line!.detail).toContain('68');
  });

  it('go back to the default by null', async () => {
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    const view: LimitsView = (await save({ 'too-hot-ceiling': { limitCelsius: null } }, 1)).json();
    expect([view.current.overrides, ceiling(view).value]).toEqual([{}, 71]);
  });

  it('of two who change them at once let the first one through and tell the second to look again', async () => {
    const answers = await Promise.all([save({ 'too-hot-ceiling': { limitCelsius: 68 } }), save({})]);
    const codes = answers.map((answer) => answer.json().code ?? 'saved');
    expect(codes.sort()).toEqual(['changed-meanwhile', 'saved']);
  });

  it.each([
    [{ 'too-hot-ceiling': { limitCelsius: 500 } }, '#/overrides/too-hot-ceiling/limitCelsius', '79'],
    [{ 'too-hot-ceiling': { limitCelsius: true } }, '#/overrides/too-hot-ceiling/limitCelsius', 'a number'],
    [{ 'too-hot-ceiling': { limit: 5 } }, '#/overrides/too-hot-ceiling/limit', 'limitCelsius'],
    [{ 'too-lukewarm': {} }, '#/overrides/too-lukewarm', 'too-hot-ceiling'],
    [{ constructor: { limitCelsius: 5 } }, '#/overrides/constructor', 'too-hot-ceiling'],
    [{ 'too-hot-fire-danger': { enabled: false } }, '#/overrides/too-hot-fire-danger/enabled', 'keep away'],
    [
      { 'too-hot-fire-danger': { onDelayMinutes: 90 } },
      '#/overrides/too-hot-fire-danger/onDelayMinutes',
      '60 min',
    ],
  ])('refuse %j, saying where and what is allowed', async (overrides, pointer, allowed) => {
    const { status, errors } = (await save(overrides)).json();
    expect([status, errors[0].pointer]).toEqual([400, pointer]);
    expect(errors[0].detail).toContain(allowed);
    expect((await web.records.limits.current(pile.id)).version).toBe(0);
  });
});

describe('going back to earlier limits', () => {
  const undo = (expectedVersion: number, toVersion?: number) =>
    web.call('keeper', 'POST', `/api/piles/${pile.id}/limits/undo`, {
      ...(toVersion === undefined ? {} : { toVersion }),
      expectedVersion,
      reason: 'too many texts',
    });

  it('saves the version before again as the next one, with the reason', async () => {
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    await save({ 'too-hot-ceiling': { limitCelsius: 66 } }, 1);
    const view: LimitsView = (await undo(2)).json();
    expect(view.current).toMatchObject({ version: 3, reason: 'too many texts (back to version 1)' });
    expect(ceiling(view).value).toBe(68);
    expect(view.history.map(({ version }) => version)).toEqual([3, 2, 1]);
    expect((await web.records.audit.list(web.yard.id, 1))[0]).toMatchObject({
      action: 'saved limits version 3',
    });
  });

  it('goes to any version, also to the defaults', async () => {
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    await save({ 'too-hot-ceiling': { limitCelsius: 66 } }, 1);
    const view: LimitsView = (await undo(2, 0)).json();
    expect([view.current.version, ceiling(view).value]).toEqual([3, 71]);
  });

  it('refuses what cannot be undone, and what somebody changed meanwhile', async () => {
    expect((await undo(0)).json().detail).toMatch(/nothing to undo/);
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    expect((await undo(1, 9)).json().errors[0].pointer).toBe('#/toVersion');
    await save({ 'too-hot-ceiling': { limitCelsius: 67 } }, 1);
    expect((await undo(1)).json().code).toBe('changed-meanwhile');
  });
});

describe('copying limits to other piles', () => {
  const copy = (to: readonly { pileId: string; expectedVersion: number }[]) =>
    web.call('keeper', 'POST', `/api/piles/${pile.id}/limits/copy`, { to, reason: 'same mix' });
  const at = (pileId: string) => web.records.limits.current(pileId);

  it('replaces what was changed there, with a reason that says from where', async () => {
    const other = await addPile(web, { name: 'Heap 5' });
    await web.call('keeper', 'PUT', `/api/piles/${other.id}/limits`, {
      ...{ overrides: { stalled: { hotDays: 20 } }, expectedVersion: 0, reason: 'older mix' },
    });
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    const answer = (await copy([{ pileId: other.id, expectedVersion: 1 }])).json();
    expect(answer).toEqual({ copied: [{ pileId: other.id, version: 2 }], changedMeanwhile: [] });
    expect(await at(other.id)).toMatchObject({
      overrides: { 'too-hot-ceiling': { limitCelsius: 68 } },
      reason: 'same mix (copied from Heap 4, version 1)',
    });
  });

  it('refuses all when one pile is of another method, out of date or this pile itself', async () => {
    await save({ 'too-hot-ceiling': { limitCelsius: 68 } });
    const good = await addPile(web, { name: 'Heap 5' });
    const bin = await addPile(web, { name: 'Bin 1', method: 'hot-bin' });
    const first = { pileId: good.id, expectedVersion: 0 };
    for (const [second, words] of [
      [{ pileId: bin.id, expectedVersion: 0 }, /same method/],
      [{ pileId: pile.id, expectedVersion: 1 }, /another pile/],
      [first, /each once/],
    ] as const)
      expect((await copy([first, second])).json().detail).toMatch(words);
    expect((await copy([{ ...first, expectedVersion: 4 }])).json().code).toBe('changed-meanwhile');
    expect((await at(good.id)).version).toBe(0);
  });
});
