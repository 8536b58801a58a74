import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';
import { confirmedForMs } from './confirmed.ts';

const password = 'leaf mould and seaweed';
let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
  await web.records.people.setPassword(web.people.owner.id, await web.house.passwords.hash(password));
});
afterEach(() => web.close());

const patch = (change: object) => web.call('owner', 'PATCH', `/api/people/${web.people.keeper.id}`, change);
const confirm = (typed: string) => web.call('owner', 'POST', '/api/session/confirm', { password: typed });
/** As if the phone had lain on the bench for a while. */
const wait = () => {
  web.clock.ms += confirmedForMs;
};

describe('what decides where alarms go and who may change things', () => {
  it('is changed without more ado a short while after signing in', async () => {
    web.clock.ms += confirmedForMs - 1;
    expect((await patch({ phone: '+15005550006' })).statusCode).toBe(200);
  });

  it('asks for the password again later, and changes nothing until it is right', async () => {
    wait();
    const refused = await patch({ phone: '+15005550006' });
    expect(refused.json()).toMatchObject({ status: 403, code: 'confirm-first' });
    expect((await web.records.people.get(web.people.keeper.id))?.phone).toBe('+441632960123');
    expect((await confirm('sea weed and leaf mould')).json().code).toBe('wrong-password');
    expect((await patch({ phone: '+15005550006' })).json().code).toBe('confirm-first');
    expect((await confirm(password)).statusCode).toBe(200);
    expect((await patch({ phone: '+15005550006' })).json().phone).toBe('+15005550006');
  });

  it.each([
    ['a role', () => patch({ role: 'owner' })],
    [
      'a person added',
      () => web.call('owner', 'POST', '/api/people', { login: 'mo', name: 'Mo', role: 'owner' }),
    ],
    [
      'a link for a new password',
      () => web.call('owner', 'POST', `/api/people/${web.people.keeper.id}/password-link`),
    ],
    [
      'an e-mail address',
      () =>
        web.call('owner', 'POST', `/api/people/${web.people.keeper.id}/contact-ways`, {
          channel: 'email',
          address: 'some@example.org',
        }),
    ],
  ])('asks for %s', async (_what, change) => {
    wait();
    expect((await change()).json().code).toBe('confirm-first');
    await confirm(password);
    expect((await change()).statusCode).toBe(200);
  });

  it('never stands between an owner and shutting somebody out, nor asks for a change of name', async () => {
    wait();
    expect((await patch({ name: 'Sorrel' })).statusCode).toBe(200);
    expect((await patch({ disabled: true })).statusCode).toBe(200);
    expect((await patch({ disabled: false })).json().code).toBe('confirm-first');
  });

  it('does not ask who has no password to show', async () => {
    await web.records.people.setPassword(web.people.owner.id, '');
    const other = await openTestWeb();
    other.clock.ms += confirmedForMs;
    const change = { phone: '+15005550006' };
    const answer = await other.call('owner', 'PATCH', `/api/people/${other.people.keeper.id}`, change);
    expect(answer.statusCode).toBe(200);
    await other.close();
  });
});
