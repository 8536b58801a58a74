import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openTestWeb } from '../testing/openTestWeb.ts';
import { createSignInThrottle, type SignInAttempt } from './signInThrottle.ts';

const minuteMs = 60_000;
const at = (address: string, login = 'owner', knownBrowser: string | null = null): SignInAttempt => ({
  login,
  address,
  knownBrowser,
});

/** Tries as fast as it is let until the end; returns how many tries it got. */
function triesWithin(attempts: (index: number) => SignInAttempt, minutes: number): number {
  const throttle = createSignInThrottle();
  let tries = 0;
  for (let nowMs = 0; nowMs < minutes * minuteMs; nowMs += 1000) {
    const attempt = attempts(tries);
    if (throttle.waitSeconds(attempt, nowMs) > 0) continue;
    throttle.failed(attempt, nowMs);
    tries += 1;
  }
  return tries;
}

describe('the sign-in throttle', () => {
  it('leaves a few mistypings free, then makes one address wait longer and longer', () => {
    const throttle = createSignInThrottle();
    const waits = [];
    for (let i = 0; i < 9; i += 1) {
      throttle.failed(at('192.0.2.1'), 0);
      waits.push(throttle.waitSeconds(at('192.0.2.1'), 0));
    }
    expect(waits).toEqual([0, 0, 0, 0, 1, 2, 4, 8, 16]);
  });

  it('gives one address under 25 guesses at an account in an hour', () => {
    expect(triesWithin(() => at('192.0.2.1'), 60)).toBeLessThan(25);
  });

  it('gives an address going through many accounts under 60 guesses in an hour', () => {
    expect(triesWithin((index) => at('192.0.2.1', `login${index}`), 60)).toBeLessThan(60);
  });

  it('gives a thousand addresses together under 80 guesses at one account in an hour', () => {
    expect(triesWithin((index) => at(`198.51.${index % 250}.${index % 7}`), 60)).toBeLessThan(80);
  });

  it('does not let strangers keep a browser waiting that has signed in before', () => {
    const throttle = createSignInThrottle();
    for (let i = 0; i < 500; i += 1) throttle.failed(at(`198.51.100.${i % 250}`), 0);
    expect(throttle.waitSeconds(at('203.0.113.9'), 0)).toBeGreaterThan(0);
    expect(throttle.waitSeconds(at('203.0.113.9', 'owner', 'mark'), 0)).toBe(0);
  });

  it('counts a whole /64 of IPv6 as one place, however the address is written', () => {
    const throttle = createSignInThrottle();
    for (let i = 0; i < 8; i += 1) throttle.failed(at(`2001:db8:0:5::${i + 1}`), 0);
    expect(throttle.waitSeconds(at('2001:db8::5:aaaa:bbbb:cccc:dddd'), 0)).toBeGreaterThan(0);
    expect(throttle.waitSeconds(at('2001:db8:0:6::1'), 0)).toBe(0);
  });

  it('never makes anyone wait more than a quarter of an hour', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 300 }), (failures) => {
        const throttle = createSignInThrottle();
        for (let i = 0; i < failures; i += 1) throttle.failed(at('192.0.2.1'), 0);
        expect(throttle.waitSeconds(at('192.0.2.1'), 0)).toBeLessThanOrEqual(900);
      }),
    );
  });

  it('takes a good try back: a busy household is not slowed down', () => {
    const throttle = createSignInThrottle();
    for (let i = 0; i < 200; i += 1) {
      throttle.failed(at('192.0.2.1', `person${i % 4}`), 0);
      throttle.succeeded(at('192.0.2.1', `person${i % 4}`));
    }
    expect(throttle.waitSeconds(at('192.0.2.1', 'person1'), 0)).toBe(0);
  });
});

describe('sign-in over the API', () => {
  it('says how long to wait, alike for accounts that exist and those that do not, right password or wrong', async () => {
    const web = await openTestWeb();
    await web.records.people.setPassword(
      web.people.owner.id,
      await web.house.passwords.hash('right words here'),
    );
    const answers = [];
    for (const login of ['owner', 'no-such-person']) {
      const payload = { login, password: 'wrong words here' };
      const request = { method: 'POST', url: '/api/session', headers: { 'x-tilth-request': '1' } } as const;
      await Promise.all(Array.from({ length: 12 }, () => web.inject({ ...request, payload })));
      const response = await web.inject({ ...request, payload: { login, password: 'right words here' } });
      expect(response.headers['retry-after']).toMatch(/^[0-9]+$/);
      answers.push(`${response.statusCode} ${response.json().code}`);
    }
    expect(answers).toEqual(['429 too-many-tries', '429 too-many-tries']);
    await web.close();
  });
});
