import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';
import { createPasswordHasher } from './passwordHasher.ts';
import { sessionIdleMs, sessionLongestMs } from './sessions.ts';

const password = 'nine damp leaves rustle';
let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
  await web.records.people.setPassword(web.people.keeper.id, await web.house.passwords.hash(password));
});
afterEach(() => web.close());

const signIn = (login: string, word = password, cookies = {}, remoteAddress = '192.0.2.10') =>
  web.inject({
    method: 'POST',
    url: '/api/session',
    headers: { 'x-tilth-request': '1' },
    payload: { login, password: word },
    cookies,
    remoteAddress,
  });

const cookieOf = (response: Awaited<ReturnType<typeof signIn>>, name: string) =>
  response.cookies.find((cookie) => cookie.name === name);

const whoAmI = async (token: string) =>
  (await web.inject({ url: '/api/session', cookies: { 'tilth-session': token } })).json().kind;

describe('signing in', () => {
  it('gives a session that says who it is', async () => {
    const response = await signIn(' Keeper ');
    expect(response.json()).toMatchObject({ kind: 'person', person: { login: 'keeper', role: 'keeper' } });
    expect(await whoAmI(cookieOf(response, 'tilth-session')!.value)).toBe('person');
  });

  it('answers the same to a wrong password, an unknown, a disabled and a passwordless account', async () => {
    await web.records.people.update(web.people.owner.id, { disabled: true });
    const bodies = [];
    for (const login of ['keeper', 'nobody-here', 'owner', 'viewer']) {
      const response = await signIn(login, 'not the right words');
      bodies.push(`${response.statusCode} ${response.body}`);
      expect(response.cookies).toEqual([]);
    }
    expect(new Set(bodies).size).toBe(1);
  });

  it('never takes a session token the browser brought (fixation), and ends the one it had', async () => {
    const first = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    const second = cookieOf(
      await signIn('keeper', password, { 'tilth-session': first }),
      'tilth-session',
    )!.value;
    expect(second).not.toBe(first);
    expect([await whoAmI(first), await whoAmI(second)]).toEqual(['none', 'person']);
  });

  it('keeps only a hash of the token', async () => {
    const token = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    expect(await web.records.sessions.get(token)).toBeNull();
  });

  it('raises an outdated hash at the next good sign-in', async () => {
    const weak = createPasswordHasher({ memoryKibibytes: 1024, passes: 1, lanes: 1 });
    await web.records.people.setPassword(web.people.keeper.id, await weak.hash(password));
    expect((await signIn('keeper')).statusCode).toBe(200);
    const stored = await web.records.people.passwordHash(web.people.keeper.id);
    expect(stored).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect((await signIn('keeper')).statusCode).toBe(200);
  });
});

describe('a session', () => {
  it('ends at sign-out, on the server', async () => {
    const token = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    const headers = { 'x-tilth-request': '1' };
    const request = { method: 'DELETE', url: '/api/session', headers } as const;
    const out = await web.inject({ ...request, cookies: { 'tilth-session': token } });
    expect(cookieOf(out, 'tilth-session')).toMatchObject({ value: '' });
    expect(await whoAmI(token)).toBe('none');
  });

  it('ends when it was not used for two weeks, and after ninety days in any case', async () => {
    const idle = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    web.clock.ms += sessionIdleMs - 1;
    expect(await whoAmI(idle)).toBe('person');
    const endMs = web.clock.ms + sessionLongestMs;
    while (web.clock.ms < endMs && (await whoAmI(idle)) === 'person') web.clock.ms += 86_400_000;
    expect(web.clock.ms).toBeLessThan(endMs);
    const other = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    web.clock.ms += sessionIdleMs;
    expect(await whoAmI(other)).toBe('none');
  });

  it('of a person ends everywhere when the owner signs them out', async () => {
    const token = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    await web.call('owner', 'POST', `/api/people/${web.people.keeper.id}/sign-out`);
    expect(await whoAmI(token)).toBe('none');
  });
});

describe('cookies', () => {
  it('over plain HTTP are HttpOnly, SameSite=Lax, for the whole site and this host only', async () => {
    const cookie = cookieOf(await signIn('keeper'), 'tilth-session')!;
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/' });
    expect(cookie.domain).toBeUndefined();
    expect(cookie.secure).toBeUndefined();
  });

  it('over HTTPS have the __Host- name and are Secure, and the plain name is not believed', async () => {
    const safe = await openTestWeb({ publicUrl: 'https://yard.example' });
    await safe.records.people.setPassword(safe.people.keeper.id, await safe.house.passwords.hash(password));
    const payload = { login: 'keeper', password };
    const headers = { 'x-tilth-request': '1' };
    const response = await safe.inject({ method: 'POST', url: '/api/session', headers, payload });
    const cookie = cookieOf(response, '__Host-tilth-session')!;
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/', secure: true });
    const asPlain = await safe.inject({ url: '/api/piles', cookies: { 'tilth-session': cookie.value } });
    expect(asPlain.statusCode).toBe(401);
    expect(response.headers['strict-transport-security']).toBeDefined();
    await safe.close();
  });
});

describe('changing the own password', () => {
  const change = (currentPassword: string, newPassword: string) =>
    web.call('keeper', 'POST', '/api/session/password', { currentPassword, newPassword });

  it('needs the current one', async () => {
    expect((await change('wrong', 'eight slow worms turn')).json()).toMatchObject({ code: 'wrong-password' });
    expect((await signIn('keeper')).statusCode).toBe(200);
  });

  it('ends every other session and leaves a line in the trail', async () => {
    const elsewhere = cookieOf(await signIn('keeper'), 'tilth-session')!.value;
    const response = await change(password, 'eight slow worms turn');
    expect(await whoAmI(elsewhere)).toBe('none');
    expect(await whoAmI(cookieOf(response, 'tilth-session')!.value)).toBe('person');
    expect((await signIn('keeper', 'eight slow worms turn')).statusCode).toBe(200);
    const [line] = await web.records.audit.list(web.yard.id, 1);
    expect(line).toMatchObject({ action: 'changed own password', by: web.people.keeper.id });
  });

  it('refuses an easy one, names the field and never repeats it', async () => {
    const response = await change(password, 'keeperkeeper1234');
    expect(response.statusCode).toBe(400);
    expect(response.json().errors[0].pointer).toBe('#/newPassword');
    expect(response.body).not.toContain('keeperkeeper1234');
  });
});
