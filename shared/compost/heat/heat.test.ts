import fc from 'fast-check';
import { expect, test } from 'vitest';
import { conductivityBounds } from './conductivity.ts';
import { dryingBalance, exhaustLoad } from './evaporation.ts';
import { phaseFractions } from './phases.ts';
import { settledVolumeFraction, settlingRateForHalf } from './settling.ts';

const density = fc.double({ min: 50, max: 900, noNaN: true });
const share = fc.double({ min: 0.05, max: 0.9, noNaN: true });

test('the three phases fill the volume, and the conductivity bounds stand in order', () => {
  fc.assert(
    fc.property(density, share, share, (bulkDensity, moisture, organic) => {
      const { water, solids, air } = phaseFractions(bulkDensity, moisture, organic);
      expect(water + solids + air).toBeCloseTo(1, 12);
      const bounds = conductivityBounds(bulkDensity, moisture, organic);
      expect(bounds.series).toBeLessThanOrEqual(bounds.geometric * (1 + 1e-12));
      expect(bounds.geometric).toBeLessThanOrEqual(bounds.parallel * (1 + 1e-12));
    }),
  );
});

test('a density with no room for air is refused', () => {
  expect(() => phaseFractions(1400, 0.6, 0.85)).toThrow(
    /bulkDensityKgPerM3 1400 at moisture 0.6 leaves no room/,
  );
});

test('hotter exhaust carries more water and a larger latent share', () => {
  const inlet = { celsius: 15, relativeHumidityFraction: 0.7 };
  const [warm, hot] = [exhaustLoad(45, inlet), exhaustLoad(65, inlet)];
  expect(hot.waterKg).toBeGreaterThan(3 * warm.waterKg);
  expect(hot.latentShareFraction).toBeGreaterThan(warm.latentShareFraction);
});

test('drying: what was there is what is left and what was lost', () => {
  const heap = {
    wetMassKg: 80,
    moistureFraction: 0.65,
    ashFraction: 0.2,
    volatileLossFraction: 0.4,
    finalMoistureFraction: 0.5,
  };
  const { finalMassKg, netWaterKg, volatileLossKg } = dryingBalance(heap);
  expect(finalMassKg + netWaterKg + volatileLossKg).toBeCloseTo(80, 9);
});

test('settling passes half on the day it was asked to, and cannot if half is the end', () => {
  expect(settledVolumeFraction(0.3, settlingRateForHalf(0.3, 20), 20)).toBeCloseTo(0.5, 12);
  expect(() => settlingRateForHalf(0.5, 20)).toThrow(/finalFraction 0.5/);
});
