import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SenmlRecord } from './record.ts';
import { resolve } from './resolve.ts';

const nowMs = 1_700_000_000_000;
const resolved = (...records: SenmlRecord[]) => resolve(records, { nowMs });

describe('base fields', () => {
  test('stay until the same one comes again, and one does not clear another', () => {
    const found = resolved(
      { bn: 'a', bt: 1e9, bu: 'Cel', bv: 20, v: 1 },
      { bn: 'b', v: 2 },
      { bv: 0, v: 3, u: 'K', t: 60 },
    );
    expect(found.map(({ name, unit, value, timeSeconds }) => [name, unit, value, timeSeconds])).toEqual([
      ['a', 'Cel', 21, 1e9],
      ['b', 'Cel', 22, 1e9],
      ['b', 'K', 3, 1e9 + 60],
    ]);
  });

  test('alone in a record they are carried on and yield nothing', () => {
    expect(resolved({ bn: 'a', bs: 5, bv: 1 })).toEqual([]);
  });

  test('a base sum gives every later record a sum; without s and bs there is none', () => {
    const found = resolved({ n: 'a', v: 1 }, { n: 'a', bs: 10, s: 2 }, { n: 'a', v: 1 });
    expect(found.map(({ kind, sum }) => [kind, sum])).toEqual([
      ['number', undefined],
      ['sum', 12],
      ['number', 10],
    ]);
  });

  test('a base value that lifts a value past the largest double is refused', () => {
    expect(() => resolved({ n: 'a', bv: 1e308, v: 1.7e308 })).toThrow('field "v"');
  });
});

describe('versions', () => {
  test('a secondary unit needs the version that says so, and comes out in the primary unit', () => {
    expect(resolved({ bver: 26, n: 'a', u: '/100', v: 55 })[0]).toMatchObject({
      unit: '/',
      value: 0.55,
      version: 26,
    });
    expect(() => resolved({ n: 'a', u: '/100', v: 55 })).toThrow('bver 26');
  });

  test('a sum in a unit with an offset cannot be converted and is refused', () => {
    expect(resolved({ bver: 26, n: 'a', u: 'mV', s: 3000 })[0]!.sum).toBe(3);
    expect(() => resolved({ bver: 26, n: 'a', u: 'dBm', s: 1 })).toThrow('offset');
  });

  test('cannot change within a pack, but may be set after a record that measures nothing', () => {
    expect(() => resolved({ n: 'a', v: 1 }, { bver: 26, n: 'a', v: 1 })).toThrow('10 as before');
    expect(resolved({ bn: 'a' }, { bver: 5, v: 1 })[0]!.version).toBe(5);
  });

  test.each([12, 11, 14, 42, 0, 26 + 2 ** 40])('version %i is refused', (bver) => {
    expect(() => resolved({ bver, n: 'a', v: 1 })).toThrow('"bver"');
  });
});

test('the promised time of the next reading is kept', () => {
  expect(resolved({ n: 'a', v: 1, ut: 900 })[0]!.updateWithinSeconds).toBe(900);
});

describe('for any pack', () => {
  const record = fc.record({
    n: fc.constantFrom('a', 'b'),
    t: fc.integer({ min: 3e8, max: 2e9 }),
    v: fc.integer(),
  });

  test('the result is in time order, and records of one instant keep their order', () => {
    fc.assert(
      fc.property(fc.array(record), (records) => {
        const found = resolve(records, { nowMs });
        const expected = records
          .map((each, index) => ({ ...each, index }))
          .sort((first, second) => first.t - second.t || first.index - second.index);
        expect(found.map(({ value }) => value)).toEqual(expected.map(({ v }) => v));
      }),
    );
  });

  test('the order in which complete records are sent does not matter', () => {
    const distinct = fc.uniqueArray(record, { selector: ({ t }) => t });
    fc.assert(
      fc.property(distinct, (records) => {
        expect(resolve(records.toReversed(), { nowMs })).toEqual(resolve(records, { nowMs }));
      }),
    );
  });

  test('base fields say the same as the fields written out', () => {
    fc.assert(
      fc.property(
        fc.array(record, { minLength: 1 }),
        fc.integer({ min: -1000, max: 1000 }),
        (records, shift) => {
          const short = records.map(({ n, t, v }, index) => ({
            ...(index === 0 && { bn: 'probe_', bt: shift, bu: 'Cel' }),
            ...{ n, t: t - shift, v },
          }));
          const long = records.map(({ n, t, v }) => ({ n: `probe_${n}`, u: 'Cel', t, v }));
          expect(resolve(short, { nowMs })).toEqual(resolve(long, { nowMs }));
        },
      ),
    );
  });
});
