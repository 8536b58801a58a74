import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const patch = (id: string, change: object) => web.call('owner', 'PATCH', `/api/people/${id}`, change);
const newPerson = { login: 'Mo', name: 'Mo', role: 'keeper', phone: '+15005550006', receivesTexts: true };
const tokenOf = (url: string) => url.split('/').pop()!;

describe('people', () => {
  it('are added without a password and choose one by a link that works once', async () => {
    const { id, login } = (await web.call('owner', 'POST', '/api/people', newPerson)).json();
    expect(login).toBe('mo');
    const { url } = (await web.call('owner', 'POST', `/api/people/${id}/password-link`)).json();
    expect(url).toMatch(/^http:\/\/yard\.example\/#\/set-password\/[A-Za-z0-9_-]{43}$/);
    const token = tokenOf(url);
    const choice = { token, password: 'seven wet winters' };
    expect((await web.call('nobody', 'POST', '/api/links/look', { token })).json().login).toBe('mo');
    expect((await web.call('nobody', 'POST', '/api/links/set-password', choice)).statusCode).toBe(200);
    const again = await web.call('nobody', 'POST', '/api/links/set-password', choice);
    expect(again.json()).toMatchObject({ status: 410, code: 'wrong-link' });
    const signIn = { login: 'mo', password: 'seven wet winters' };
    expect((await web.call('nobody', 'POST', '/api/session', signIn)).statusCode).toBe(200);
  });

  it('keep their link when the password they chose was refused', async () => {
    const { url } = (
      await web.call('owner', 'POST', `/api/people/${web.people.viewer.id}/password-link`)
    ).json();
    const token = tokenOf(url);
    const easy = await web.call('nobody', 'POST', '/api/links/set-password', { token, password: 'short' });
    expect(easy.json().errors[0]).toMatchObject({ pointer: '#/password' });
    expect(easy.json().detail).toContain('at least 12 characters');
    const good = { token, password: 'six brown buckets' };
    expect((await web.call('nobody', 'POST', '/api/links/set-password', good)).statusCode).toBe(200);
  });

  it('cannot use a link for something it was not made for', async () => {
    const { url } = (
      await web.call('owner', 'POST', `/api/people/${web.people.viewer.id}/password-link`)
    ).json();
    const response = await web.call('nobody', 'POST', '/api/links/sign-in', { token: tokenOf(url) });
    expect(response.json().code).toBe('wrong-link');
  });

  it('include an owner at all times', async () => {
    for (const change of [{ disabled: true }, { role: 'keeper' }]) {
      const response = await patch(web.people.owner.id, change);
      expect(response.json()).toMatchObject({ status: 409, code: 'conflict' });
    }
    expect((await web.records.people.get(web.people.owner.id))?.role).toBe('owner');
  });

  it('gain and lose what a role allows with the next call', async () => {
    await patch(web.people.viewer.id, { role: 'keeper' });
    expect((await web.call('viewer', 'GET', '/api/probes')).statusCode).toBe(200);
    await patch(web.people.viewer.id, { role: 'viewer' });
    expect((await web.call('viewer', 'GET', '/api/probes')).statusCode).toBe(403);
  });

  it('are refused when what is given is not right, each field with its value and what is allowed', async () => {
    const wrong = { login: 'a b', name: '', role: 'king', phone: '01632', nickname: 'x' };
    const { errors, status } = (await web.call('owner', 'POST', '/api/people', wrong)).json();
    const details = errors.map((error: { detail: string }) => error.detail).join('\n');
    expect(status).toBe(400);
    for (const said of [
      'login is "a b"',
      'at least 1 character',
      '"viewer", "keeper", "owner"',
      '"01632"',
      '"nickname"',
    ])
      expect(details).toContain(said);
    expect(errors.map((error: { pointer: string }) => error.pointer)).toContain('#/phone');
  });

  it('cannot be texted without a number, nor have a login twice', async () => {
    const noPhone = await patch(web.people.keeper.id, { phone: null });
    expect(noPhone.json().errors[0].pointer).toBe('#/phone');
    const twice = await web.call('owner', 'POST', '/api/people', { ...newPerson, login: 'keeper' });
    expect(twice.json()).toMatchObject({ status: 409, errors: [{ pointer: '#/login' }] });
  });

  it('leave a trail of who changed what, without secrets', async () => {
    await patch(web.people.keeper.id, { textsFrom: 'highest' });
    const [line] = (await web.call('owner', 'GET', '/api/audit?limit=1')).json();
    expect(line).toMatchObject({ by: 'Some owner', role: 'owner', target: 'keeper' });
    expect(line.detail).toBe('textsFrom medium -> highest');
    const trail = await web.call('owner', 'GET', '/api/audit?limit=1000');
    expect(trail.body).not.toMatch(/[A-Za-z0-9_-]{43}|argon2/);
  });
});
