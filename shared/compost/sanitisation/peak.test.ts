import { describe, expect, test } from 'vitest';
import { evaluateSanitisation } from './evaluate.ts';
import { defaultSanitisationPolicy as careful } from './policy.ts';
import { findRuleSet } from './ruleSets.ts';
import { meansOf, pileOf, type Spell } from './testPile.ts';

const psrp = findRuleSet('us-psrp');
const vectors = findRuleSet('us-var-5');
const warm = (hours: number): Spell => ({ hours, celsius: 42 });
const hot = (hours: number): Spell => ({ hours, celsius: 56 });

function judge(spells: readonly Spell[]) {
  return evaluateSanitisation(psrp, pileOf([meansOf(spells)]));
}

describe('hotter hours within the hours held', () => {
  test('two hours on day one and two on day nine are not four within five days', () => {
    const result = judge([hot(2), warm(190), hot(2), warm(20)]);
    expect(result.outcome).toBe('not-yet');
    expect(result.missing).toEqual(['2.0 h more above 55 C within the same 120 h.']);
  });

  test('two and two just inside one window of five days are enough', () => {
    expect(judge([warm(50), hot(2), warm(116), hot(2), warm(50)]).outcome).toBe('consistent');
    expect(judge([warm(50), hot(2), warm(117), hot(2), warm(50)]).outcome).toBe('not-yet');
  });

  test('an early hot spell is met only when the five days are full', () => {
    expect(judge([hot(5), warm(140)]).satisfiedAtMs).toBe(120 * 3_600_000);
  });

  test('a late hot spell is met when its fourth hour is over', () => {
    expect(judge([warm(200), hot(6)]).satisfiedAtMs).toBe(204 * 3_600_000);
  });

  test('hot hours in another run do not help', () => {
    expect(judge([hot(6), { hours: 1, celsius: 39 }, warm(130)]).outcome).toBe('not-yet');
  });
});

describe('mean over the hours held', () => {
  test('a mean of exactly 45 C is not above 45 C', () => {
    const even: Spell[] = [
      { hours: 168, celsius: 44 },
      { hours: 168, celsius: 46 },
    ];
    expect(evaluateSanitisation(vectors, pileOf([meansOf(even)])).outcome).toBe('not-yet');
    const warmer: Spell[] = [
      { hours: 168, celsius: 44 },
      { hours: 169, celsius: 46 },
    ];
    expect(evaluateSanitisation(vectors, pileOf([meansOf(warmer)])).satisfiedAtMs).toBe(337 * 3_600_000);
  });

  test('with the probe tolerance kept back a mean of 45.3 C is not enough', () => {
    const result = evaluateSanitisation(vectors, pileOf([meansOf([{ hours: 336, celsius: 45.3 }])]), careful);
    expect(result.plain.satisfiedAtMs).not.toBeNull();
    expect(result.guarded.satisfiedAtMs).toBeNull();
  });
});
