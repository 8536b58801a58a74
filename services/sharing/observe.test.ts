import { describe, expect, it } from 'vitest';
import { createObserver } from './observe.ts';

describe('watching signs of life', () => {
  it('counts how long a counter stands still, from when it was first seen so', () => {
    const observer = createObserver(5_000);
    observer.look(
      new Map([
        ['a', 1],
        ['b', 7],
      ]),
      0,
    );
    observer.look(
      new Map([
        ['a', 1],
        ['b', 8],
      ]),
      4_000,
    );
    observer.look(
      new Map([
        ['a', 1],
        ['b', 8],
      ]),
      8_000,
    );
    expect([observer.stillMs('a', 8_000), observer.stillMs('b', 8_000)]).toEqual([8_000, 4_000]);
    expect(observer.stillMs('unheard', 8_000)).toBe(0);
  });

  it('starts anew after a break: who could not look has seen nobody stand still', () => {
    const observer = createObserver(5_000);
    observer.look(new Map([['a', 1]]), 0);
    observer.look(new Map([['a', 1]]), 60_000);
    expect(observer.stillMs('a', 60_000)).toBe(0);
    observer.look(new Map([['a', 1]]), 63_000);
    expect(observer.stillMs('a', 63_000)).toBe(3_000);
  });
});
