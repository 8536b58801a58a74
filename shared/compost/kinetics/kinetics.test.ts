import fc from 'fast-check';
import { expect, test } from 'vitest';
import { twoPoolRemainingFraction } from './decay.ts';
import { biodegradableFraction } from './lignin.ts';
import { freeAirSpaceFactor, moistureFactor, oxygenFactor, oxygenFactorOfAir } from './limitingFactors.ts';
import { oxidationPerKilogram } from './stoichiometry.ts';
import { ctmiTemperatureFactor, haugTemperatureFactor } from './temperatureFactor.ts';

const celsius = fc.double({ min: -30, max: 120, noNaN: true });
const fraction = fc.double({ min: 0, max: 1, noNaN: true });
const atoms = fc.integer({ min: 1, max: 60 });

test('the cardinal curve stays within 0..1 and is nothing outside its limits', () => {
  fc.assert(
    fc.property(celsius, (at) => {
      const factor = ctmiTemperatureFactor(at);
      expect(factor).toBeGreaterThanOrEqual(0);
      expect(factor).toBeLessThanOrEqual(1 + 1e-12);
      if (at <= 5 || at >= 71.6) expect(factor).toBe(0);
      expect(haugTemperatureFactor(at)).toBeGreaterThanOrEqual(0);
    }),
  );
});

test('a cardinal set whose optimum is below the midpoint is refused with the values', () => {
  const wrong = { minimumCelsius: 5, optimumCelsius: 20, maximumCelsius: 70 };
  expect(() => ctmiTemperatureFactor(20, wrong)).toThrow(
    /optimumCelsius 20 must lie above the midpoint of 5 and 70/,
  );
});

test('every limiting factor rises with what it wants and stays within 0..1', () => {
  fc.assert(
    fc.property(fraction, fraction, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      for (const factor of [moistureFactor, freeAirSpaceFactor, (x: number) => oxygenFactor(21 * x)]) {
        expect(factor(more)).toBeGreaterThanOrEqual(factor(less));
        expect(factor(more)).toBeLessThanOrEqual(1);
      }
      expect(oxygenFactorOfAir(0.21 * more)).toBeGreaterThanOrEqual(oxygenFactorOfAir(0.21 * less));
    }),
  );
});

test('oxidation keeps mass: what goes in comes out', () => {
  fc.assert(
    fc.property(atoms, atoms, atoms, fc.integer({ min: 0, max: 5 }), (carbon, hydrogen, oxygen, nitrogen) => {
      const made = oxidationPerKilogram({ carbon, hydrogen, oxygen, nitrogen });
      const out = made.waterKg + made.carbonDioxideKg + made.ammoniaKg;
      expect(Math.abs(1 + made.oxygenKg - out)).toBeLessThan(1e-9 * (1 + out + Math.abs(made.waterKg)));
    }),
  );
});

test('two pools never come back, and lignin is held to its range', () => {
  const pools = { fastShareFraction: 0.6, fastRatePerDay: 0.1, slowRatePerDay: 0.01 };
  expect(twoPoolRemainingFraction(pools, 0)).toBe(1);
  expect(twoPoolRemainingFraction(pools, 10)).toBeLessThan(twoPoolRemainingFraction(pools, 9));
  expect(biodegradableFraction(60)).toBe(0);
  expect(biodegradableFraction(-5)).toBe(0.83);
});
