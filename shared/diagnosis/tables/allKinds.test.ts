import { describe, expect, test } from 'vitest';
import { pileMethods } from '../../yard/method.ts';
import { type CauseId, causeIds } from '../causes.ts';
import { checks } from '../checks.ts';
import { kindIds, type ObservationKind, rowOf } from '../kind.ts';
import { priorFor, priorWeights } from '../priors.ts';
import { type Trouble, troubles } from '../trouble.ts';
import { observationKinds } from './allKinds.ts';

const rowsOf = (kind: ObservationKind) => [kind.otherwise, ...Object.values(kind.rows)];

describe('the tables', () => {
  test('list every kind once', () => {
    expect(observationKinds.map((kind) => kind.id).sort()).toEqual([...kindIds].sort());
  });

  test.each(observationKinds)('$id: each row gives every outcome a chance and sums to 100 %', (kind) => {
    for (const { chances, expect: words, source } of rowsOf(kind)) {
      expect(chances).toHaveLength(kind.outcomes.length);
      expect(Math.min(...chances)).toBeGreaterThan(0);
      expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(100, 6);
      expect(words.length * source.length).toBeGreaterThan(0);
    }
  });

  test.each(observationKinds)('$id: anchors rise, one for each outcome, for every method', (kind) => {
    for (const method of pileMethods) {
      const anchors = kind.anchors?.(method);
      if (anchors === undefined) continue;
      expect(anchors).toHaveLength(kind.outcomes.length);
      expect(anchors).toEqual([...anchors].sort((one, other) => one - other));
    }
  });

  test.each(observationKinds)('$id: names only causes of the troubles it is asked in', (kind) => {
    for (const cause of Object.keys(kind.rows) as CauseId[]) {
      const asked = kind.troubles.some((trouble) => priorWeights[trouble][cause] !== undefined);
      expect(asked, `${kind.id} has a row for ${cause}`).toBe(true);
    }
  });

  test.each(observationKinds)('$id: tells something in every trouble it is asked in', (kind) => {
    for (const trouble of kind.troubles) {
      const named = Object.keys(kind.rows) as CauseId[];
      expect(
        named.some((cause) => priorWeights[trouble][cause] !== undefined),
        trouble,
      ).toBe(true);
    }
  });

  test('every cause lies behind some trouble, and every trouble leaves room for something else', () => {
    const used = new Set(troubles.flatMap((trouble) => Object.keys(priorWeights[trouble])));
    expect([...used].sort()).toEqual([...causeIds].sort());
    for (const trouble of troubles) expect(priorWeights[trouble].other).toBeGreaterThan(0);
  });

  test('every check gives an observation of a kind', () => {
    for (const check of checks) expect(kindIds).toContain(check.kind);
  });
});

/** From dry to wet the odds of "too dry" against any other cause never rise. */
describe('moisture tables are in order', () => {
  const moist = observationKinds.filter((kind) => kind.matter === 'moisture');
  const dryCauses: readonly CauseId[] = ['too-dry', 'too-dry-to-cool', 'built-dry'];
  const cases = moist.flatMap((kind) => kind.troubles.map((trouble) => [kind.id, trouble, kind] as const));

  test.each(cases)('%s, %s', (_id, trouble: Trouble, kind) => {
    for (const method of pileMethods) {
      const causes = [...priorFor(trouble, method).keys()];
      for (const dry of causes.filter((cause) => dryCauses.includes(cause))) {
        for (const other of causes.filter((cause) => !dryCauses.includes(cause)))
          expect(isFalling(oddsOf(kind, dry, other)), `${dry} against ${other}`).toBe(true);
      }
    }
  });

  const oddsOf = (kind: ObservationKind, dry: CauseId, other: CauseId) =>
    rowOf(kind, dry).chances.map((chance, index) => chance / rowOf(kind, other).chances[index]!);
  const isFalling = (odds: readonly number[]) =>
    odds.every((one, index) => index === 0 || one <= odds[index - 1]! * (1 + 1e-9));
});
