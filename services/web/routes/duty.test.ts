import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const save = (plan: object, expectedVersion = 0) =>
  web.call('owner', 'PUT', '/api/duty', { plan, expectedVersion });
const turn = (personId: string) => ({ personId, from: '00:00', to: '00:00' });

describe('the duty plan', () => {
  it('has every default and everybody on duty until it is changed', async () => {
    const view = (await web.call('viewer', 'GET', '/api/duty')).json();
    expect(view).toMatchObject({ version: 0, by: null, plan: { shifts: [], textsPerHour: 6 } });
    expect(view.onDuty).toHaveLength(1);
    expect(view.onDuty[0]).toHaveLength(3);
  });

  it('is saved with its version, and says who is on duty now', async () => {
    const saved = await save({ shifts: [turn(web.people.keeper.id)] });
    expect(saved.json()).toMatchObject({ version: 1, by: 'Some owner', onDuty: [['Some keeper']] });
    expect((await save({}, 0)).json()).toMatchObject({ code: 'changed-meanwhile' });
    expect((await save({}, 1)).statusCode).toBe(200);
  });

  it('is refused by the field: a time that is none, a person of elsewhere', async () => {
    const wrong = await save({ shifts: [{ ...turn(web.people.keeper.id), from: '7 am' }] });
    expect(wrong.json().errors[0]).toMatchObject({ pointer: '#/plan/shifts/0/from' });
    const stranger = await save({ shifts: [turn('nobody-here')] });
    expect(stranger.json().errors[0]).toMatchObject({ pointer: '#/plan/shifts/0/personId' });
  });
});

describe('further ways to reach a person', () => {
  const url = () => `/api/people/${web.people.keeper.id}/contact-ways`;
  const mail = { channel: 'email', address: 'keeper@yard.example' };

  it('are added, listed and removed', async () => {
    const made = (await web.call('owner', 'POST', url(), mail)).json();
    expect(made).toMatchObject({ ...mail, toldFrom: 'high', goneMs: null });
    expect((await web.call('owner', 'GET', '/api/contact-ways')).json()).toEqual([made]);
    expect((await web.call('owner', 'DELETE', `/api/contact-ways/${made.id}`)).statusCode).toBe(200);
    expect((await web.call('owner', 'GET', '/api/contact-ways')).json()).toEqual([]);
    expect((await web.call('owner', 'DELETE', `/api/contact-ways/${made.id}`)).statusCode).toBe(404);
  });

  it('must be an address of their kind', async () => {
    const wrong = await web.call('owner', 'POST', url(), { ...mail, address: 'keeper' });
    expect(wrong.statusCode).toBe(400);
    const push = await web.call('owner', 'POST', url(), { channel: 'web-push', address: '{}' });
    expect(push.statusCode).toBe(400);
  });
});
