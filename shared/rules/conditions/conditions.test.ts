import { describe, expect, test } from 'vitest';
import type { PileMethod } from '../../yard/method.ts';
import { pileMethods } from '../../yard/method.ts';
import { fireDangerAction } from '../advice.ts';
import { allConditions, pileConditions } from '../allConditions.ts';
import { LimitError, ruleFor } from '../parameters.ts';
import { createPileSubject, refill } from '../pileSubject.ts';
import { atInstant } from '../pileWindow.ts';
import { course, defaultLimits, minuteMs, startMs, testFacts } from '../testing/testPile.ts';

/** A pile of a method whose core stood at a temperature for an hour. */
function viewAt(celsius: number, method: PileMethod = 'static-cage', thenCelsius = celsius) {
  const pile = createPileSubject(testFacts({ method }), defaultLimits);
  const samples = course('a', 0, 2, (hours) => (hours < 1 ? celsius : thenCelsius));
  refill(pile, samples);
  return atInstant(pile.window, startMs + 119 * minuteMs);
}

describe.each(allConditions.map((condition) => [`${condition.subject} ${condition.id}`, condition] as const))(
  '%s',
  (_name, condition) => {
    test.each(pileMethods)('its defaults for a %s are allowed by its own schema', (method) => {
      expect(condition.parameters.parse(condition.defaults(method))).toEqual(condition.defaults(method));
    });

    test('says where its defaults come from', () => {
      expect(condition.source.length).toBeGreaterThan(15);
    });

    test('every parameter has a unit and a description', () => {
      const shape = (condition.parameters as unknown as { shape: Record<string, { meta(): unknown }> }).shape;
      expect(Object.keys(shape).sort()).toEqual(Object.keys(condition.defaults('hot-bin')).sort());
      for (const field of Object.values(shape))
        expect(field.meta()).toMatchObject({
          unit: expect.any(String),
          description: expect.stringMatching(/\.$/),
        });
    });
  },
);

describe.each(pileConditions.map((condition) => [condition.id, condition] as const))(
  'words of %s',
  (_id, condition) => {
    const said = (celsius: number, method: PileMethod, then = celsius) =>
      condition.words(viewAt(celsius, method, then), condition.defaults(method));

    test.each(pileMethods)('are short enough for a text in a %s', (method) => {
      for (const celsius of [20, 68, 75, 85])
        expect(said(celsius, method).firstAction.length).toBeLessThanOrEqual(72);
    });

    test.each(pileMethods)(
      'never say to open or turn a %s at fire danger, nor within a day of it',
      (method) => {
        expect(said(80, method).firstAction).toBe(fireDangerAction);
        expect(said(93, method, 45).firstAction).toBe(fireDangerAction);
      },
    );

    test.each(['static-cage', 'aerated-static-pile', 'worm-bed', 'curing-heap', 'leaf-heap'] as const)(
      'never say to turn a %s',
      (method) => {
        for (const celsius of [20, 60, 68, 75]) {
          const { firstAction, cautions } = said(celsius, method);
          const withoutWarnings = [firstAction, ...cautions].join(' ').replaceAll(/do not [^.]*\./gi, '');
          expect(withoutWarnings).not.toMatch(/turn/i);
        }
      },
    );
  },
);

test('the ladder: turned piles are turned below 71 C and opened in small bites above', () => {
  const ceiling = pileConditions.find(({ id }) => id === 'too-hot-ceiling')!;
  const said = (celsius: number) =>
    ceiling.words(viewAt(celsius, 'turned-windrow'), ceiling.defaults('turned-windrow')).firstAction;
  expect(said(69)).toMatch(/^Turn it and wet it/);
  expect(said(75)).toMatch(/small bites, hose charged/);
});

test('a limit that is not allowed is refused by name, value and range', () => {
  const ceiling = pileConditions.find(({ id }) => id === 'too-hot-ceiling')!;
  expect(() => ruleFor(ceiling, 'hot-bin', { limitCelsius: 95 })).toThrow(LimitError);
  expect(() => ruleFor(ceiling, 'hot-bin', { limitCelsius: 95 })).toThrow(
    /too-hot-ceiling\.limitCelsius is 95.*79/,
  );
  expect(ruleFor(ceiling, 'hot-bin', { limitCelsius: null }).parameters).toEqual(ceiling.defaults('hot-bin'));
});
