import { describe, expect, it } from 'vitest';
import { createSignInThrottle } from './signInThrottle.ts';

function failTimes(
  throttle: ReturnType<typeof createSignInThrottle>,
  times: number,
  address: string,
  probe: string,
) {
  for (let count = 0; count < times; count++) throttle.failed(address, probe, 0);
}

describe('sign-in throttle', () => {
  it('lets a few mistakes pass, then makes the waits double', () => {
    const throttle = createSignInThrottle();
    failTimes(throttle, 3, 'a', 'probe');
    expect(throttle.mayTry('a', 'probe', 0)).toBe(true);
    throttle.failed('a', 'probe', 0);
    expect(throttle.mayTry('a', 'probe', 999)).toBe(false);
    expect(throttle.mayTry('a', 'probe', 1000)).toBe(true);
    throttle.failed('a', 'probe', 1000);
    expect(throttle.mayTry('a', 'probe', 2999)).toBe(false);
    expect(throttle.mayTry('a', 'probe', 3000)).toBe(true);
  });

  it('never makes anybody wait longer than five minutes', () => {
    const throttle = createSignInThrottle();
    failTimes(throttle, 50, 'a', 'probe');
    expect(throttle.mayTry('a', 'probe', 300_000)).toBe(true);
  });

  it('does not make neighbours at the same address, or the probe elsewhere, wait', () => {
    const throttle = createSignInThrottle();
    failTimes(throttle, 10, 'a', 'probe');
    expect(throttle.mayTry('a', 'neighbour', 0)).toBe(true);
    expect(throttle.mayTry('b', 'probe', 0)).toBe(true);
  });

  it('stops an address that tries many names, except those it has signed in with', () => {
    const throttle = createSignInThrottle();
    throttle.succeeded('a', 'honest');
    for (let count = 0; count < 60; count++) throttle.failed('a', `guess ${count}`, 0);
    expect(throttle.mayTry('a', 'next guess', 1)).toBe(false);
    expect(throttle.mayTry('a', 'honest', 1)).toBe(true);
    expect(throttle.mayTry('a', 'next guess', 60_000)).toBe(true);
  });

  it('forgets mistakes after the right secret', () => {
    const throttle = createSignInThrottle();
    failTimes(throttle, 4, 'a', 'probe');
    throttle.succeeded('a', 'probe');
    expect(throttle.mayTry('a', 'probe', 0)).toBe(true);
  });
});
