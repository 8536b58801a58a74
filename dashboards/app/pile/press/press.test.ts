import { describe, expect, it } from 'vitest';
import { afterFailure, holdMs, isDue, newPressKey, type Press } from './press.ts';

const press: Press = {
  ...{ key: 'k', pileId: 'p', personId: 'maren', words: 'Turned', photo: null },
  deed: { kind: 'journal', pileId: 'p', body: {} },
  ...{ holdUntilMs: 1000 + holdMs, tries: 0, nextTryMs: 0, refusal: null },
};
const lost = { status: 0, detail: 'no link' };

describe('a press', () => {
  it('is held for a moment so that it can be undone, and leaves at once when the page closes', () => {
    expect(isDue(press, 'maren', 1000)).toBe(false);
    expect(isDue(press, 'maren', 1000, true)).toBe(true);
    expect(isDue(press, 'maren', 1000 + holdMs)).toBe(true);
  });

  it('is never sent in another’s name', () => {
    expect(isDue(press, 'tobin', 1e9)).toBe(false);
    expect(isDue(press, null, 1e9, true)).toBe(false);
  });

  it('waits longer each time there is no link, and goes on trying for ever', () => {
    let [waiting, now] = [press, 10_000];
    const pauses = Array.from({ length: 8 }, () => {
      waiting = afterFailure(waiting, lost, now);
      const pause = waiting.nextTryMs - now;
      now = waiting.nextTryMs;
      return pause / 1000;
    });
    expect(pauses).toEqual([2, 5, 15, 30, 60, 60, 60, 60]);
    expect(isDue(waiting, 'maren', now)).toBe(true);
  });

  it('waits while signed out, slowed down or the service failed; is refused with its reason for good', () => {
    for (const status of [0, 401, 429, 500, 503])
      expect(afterFailure(press, { status, detail: '' }, 0).refusal).toBeNull();
    for (const status of [400, 403, 404, 409, 413]) {
      const refused = afterFailure(press, { status, detail: 'it came anew' }, 0);
      expect(refused.refusal).toBe('it came anew');
      expect(isDue(refused, 'maren', 1e9)).toBe(false);
    }
  });

  it('has a key of its own that the service takes', () => {
    const keys = Array.from({ length: 50 }, newPressKey);
    expect(new Set(keys).size).toBe(50);
    for (const key of keys) expect(key).toMatch(/^[A-Za-z0-9_-]{16,64}$/);
  });
});
