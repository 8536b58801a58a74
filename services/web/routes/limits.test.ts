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
  ])('refuse %j, saying where and what is allowed', async (overrides, pointer, allowed) => {
    const { status, errors } = (await save(overrides)).json();
    expect([status, errors[0].pointer]).toEqual([400, pointer]);
    expect(errors[0].detail).toContain(allowed);
    expect((await web.records.limits.current(pile.id)).version).toBe(0);
  });
});
