import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type PileMethod, pileMethods } from '../yard/method.ts';
import { diagnose } from './diagnose.ts';
import { ObservationError, type ObservationKind, type Seen } from './kind.ts';
import { type Observations, witnessesOf } from './observations.ts';
import { posterior } from './posterior.ts';
import { priorFor } from './priors.ts';
import { observationKinds } from './tables/allKinds.ts';
import { row } from './tables/row.ts';
import { situationOf } from './testing.ts';
import { coldTroubles, troubles } from './trouble.ts';

const seen = (kind: ObservationKind): fc.Arbitrary<Seen> => {
  const outcome = fc.constantFrom(...kind.outcomes);
  if (kind.anchors === null) return outcome;
  const value = fc.double({ min: -50, max: 400, noNaN: true });
  const band = fc.tuple(value, value, value).map((three) => {
    const [low, middle, high] = three.sort((one, other) => one - other) as [number, number, number];
    return { low, middle, high };
  });
  return fc.oneof(value, outcome, band);
};
const anyObservations: fc.Arbitrary<Observations> = fc.record(
  Object.fromEntries(observationKinds.map((kind) => [kind.id, seen(kind)])),
  { requiredKeys: [] },
);
const anyTrouble = fc.constantFrom(...troubles);
const anyMethod = fc.constantFrom(...pileMethods);
const chancesOf = (
  trouble: (typeof troubles)[number],
  observations: Observations,
  method: PileMethod = 'hot-bin',
) =>
  new Map(
    diagnose(trouble, observations, situationOf({ method })).causes.map((one) => [one.cause, one.chance]),
  );

describe('diagnose, whatever is known', () => {
  test('chances are chances, sum to 1 and stand in order', () => {
    fc.assert(
      fc.property(anyTrouble, anyMethod, anyObservations, (trouble, method, observations) => {
        const { causes } = diagnose(trouble, observations, situationOf({ method }));
        const chances = causes.map((one) => one.chance);
        expect(chances.every((chance) => chance >= 0 && chance <= 1)).toBe(true);
        expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
        expect(chances).toEqual([...chances].sort((one, other) => other - one));
      }),
    );
  });

  test('the order in which observations are given does not matter', () => {
    fc.assert(
      fc.property(anyTrouble, anyObservations, (trouble, observations) => {
        const backwards = Object.fromEntries(Object.entries(observations).reverse());
        expect(diagnose(trouble, backwards, situationOf())).toEqual(
          diagnose(trouble, observations, situationOf()),
        );
      }),
    );
  });

  test('an observation that is alike under all causes changes nothing', () => {
    const flat: ObservationKind = {
      ...observationKinds.find((kind) => kind.id === 'airPath')!,
      matter: 'nothing at all',
      otherwise: row([30, 70], 'either', 'test'),
      rows: {},
    };
    fc.assert(
      fc.property(anyMethod, anyObservations, (method, { airPath: _, ...observations }) => {
        const question = { trouble: 'stalled', method } as const;
        const kinds = [...observationKinds.filter((kind) => kind.id !== 'airPath'), flat];
        const prior = priorFor('stalled', method);
        const without = posterior(prior, witnessesOf(observations, question, kinds));
        const withFlat = posterior(prior, witnessesOf({ ...observations, airPath: 'open' }, question, kinds));
        for (const [cause, chance] of without) expect(withFlat.get(cause)).toBeCloseTo(chance, 9);
      }),
    );
  });

  test('an observation that is not asked in a trouble changes nothing', () => {
    const { volumeM3: _, ...rest } = { volumeM3: 30, moistureFraction: 0.2, rainMillimetresWeek: 60 };
    expect(diagnose('too-wet', { ...rest, volumeM3: 30 }, situationOf())).toEqual(
      diagnose('too-wet', rest, situationOf()),
    );
  });
});

describe('more moisture never makes a dry cause likelier', () => {
  const wetter = fc
    .tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }))
    .map(([one, other]) => [Math.min(one, other), Math.max(one, other)] as const);

  test.each(['moistureFraction', 'estimatedMoistureFraction', 'builtMoistureFraction'] as const)(
    '%s',
    (kind) => {
      fc.assert(
        fc.property(
          fc.constantFrom(...coldTroubles),
          anyMethod,
          anyObservations,
          wetter,
          (trouble, method, others, [low, high]) => {
            const dry = chancesOf(trouble, { ...others, [kind]: low }, method).get('too-dry')!;
            const wet = chancesOf(trouble, { ...others, [kind]: high }, method).get('too-dry')!;
            expect(wet).toBeLessThanOrEqual(dry + 1e-12);
          },
        ),
        { numRuns: 300 },
      );
    },
  );

  test('squeeze score', () => {
    for (const trouble of [...coldTroubles, 'too-hot'] as const) {
      const cause = trouble === 'too-hot' ? 'too-dry-to-cool' : 'too-dry';
      const chances = [1, 1.5, 2, 3, 4, 5].map(
        (score) => chancesOf(trouble, { squeezeScore: score }).get(cause)!,
      );
      expect(chances).toEqual([...chances].sort((one, other) => other - one));
    }
  });
});

describe('what is not allowed is refused by name', () => {
  test.each([
    [{ smell: 'roses' }, /smell is "roses"; allowed are none, earthy/],
    [{ airPath: 3 }, /airPath is 3; allowed are open, blocked/],
    [{ moistureFraction: Number.NaN }, /moistureFraction is NaN/],
  ] as const)('%j', (observations, message) => {
    expect(() => diagnose('stalled', observations, situationOf())).toThrow(ObservationError);
    expect(() => diagnose('stalled', observations, situationOf())).toThrow(message);
  });
});
