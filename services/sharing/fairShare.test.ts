import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LeaseRow } from '../records/port.ts';
import { fairMoves } from './fairShare.ts';

const lease = (name: string, holder: string | null): LeaseRow => ({ name, holder, fence: 1, beat: 1 });
const names = (leases: readonly LeaseRow[]) => leases.map(({ name }) => name);

/** Lets processes move one after another until nobody wants to; returns how many rounds that took. */
function settle(leases: LeaseRow[], workers: readonly string[], dead: ReadonlySet<string>): number {
  for (let round = 1; round <= 20; round += 1) {
    let moved = 0;
    for (const holder of workers) {
      const isLapsed = ({ holder: of }: LeaseRow) => of !== null && dead.has(of);
      const { take, handBack } = fairMoves({ leases, holder, workers: workers.length, isLapsed });
      for (const { name } of handBack) replace(leases, lease(name, null));
      for (const { name } of take) replace(leases, lease(name, holder));
      moved += take.length + handBack.length;
    }
    if (moved === 0) return round;
  }
  throw new Error('pieces wander for ever');
}

function replace(leases: LeaseRow[], changed: LeaseRow): void {
  leases[leases.findIndex(({ name }) => name === changed.name)] = changed;
}

describe('fairMoves', () => {
  it('takes what is free, up to an even share', () => {
    const leases = ['a', 'b', 'c', 'd'].map((name) => lease(name, null));
    const moves = fairMoves({ leases, holder: 'one', workers: 2, isLapsed: () => false });
    expect([names(moves.take), names(moves.handBack)]).toEqual([['a', 'b'], []]);
  });

  it('hands back what is beyond its share when another comes, and only when nothing else is free', () => {
    const held = ['a', 'b', 'c', 'd'].map((name) => lease(name, 'one'));
    const isLapsed = () => false;
    expect(names(fairMoves({ leases: held, holder: 'one', workers: 2, isLapsed }).handBack)).toEqual([
      'c',
      'd',
    ]);
    const withFree = [...held, lease('e', null)];
    expect(fairMoves({ leases: withFree, holder: 'one', workers: 2, isLapsed }).handBack).toEqual([]);
  });

  it('leaves the living alone, whatever it could take', () => {
    const moves = fairMoves({
      ...{ leases: [lease('a', 'other')], holder: 'one', workers: 2 },
      isLapsed: () => false,
    });
    expect(moves).toEqual({ take: [], handBack: [] });
  });

  it('comes to rest with every piece held by the living, none with more than its share', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 0, max: 5 }),
        (pieces, count, deaths) => {
          const workers = Array.from({ length: count }, (_, index) => `w${index}`);
          const leases = Array.from({ length: pieces }, (_, index) => lease(`p${index}`, null));
          settle(leases, workers, new Set());
          const dead = new Set(workers.slice(0, Math.min(deaths, count - 1)));
          const living = workers.filter((name) => !dead.has(name));
          settle(leases, living, dead);
          for (const name of living)
            expect(leases.filter(({ holder }) => holder === name).length).toBeLessThanOrEqual(
              Math.ceil(pieces / living.length),
            );
          expect(leases.every(({ holder }) => holder !== null && living.includes(holder))).toBe(true);
        },
      ),
    );
  });
});
