import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boilingPointAtAltitude, boilingPointAtPressure } from './boilingPoint.ts';
import { volumetricFromWetBasis, wetBasisFromVolumetric, wetBasisFromWeighing } from './moistureBasis.ts';
import { applyMoistureFit, fitMoisture } from './moistureFit.ts';
import { moistureIndex } from './moistureIndex.ts';
import { checkBoilingPoint, checkIcePoint } from './pointCheck.ts';
import { sensorTolerance } from './tolerance.ts';

test.each([
  [0, 99.97],
  [305, 98.96],
  [610, 97.95],
  [1000, 96.65],
  [2000, 93.32],
])('water boils at %f m at %f C', (altitude, celsius) => {
  expect(Math.abs(boilingPointAtAltitude(altitude) - celsius)).toBeLessThanOrEqual(0.05);
});

test('weather moves the boiling point by about 0.28 C per kPa near sea level', () => {
  expect(boilingPointAtPressure(101_825) - boilingPointAtPressure(100_825)).toBeCloseTo(0.28, 2);
});

describe('point checks', () => {
  test('the offset is what must be added to the reading', () => {
    const check = checkIcePoint([1.4, 1.5, 1.5]);
    expect(check.readCelsius + check.offsetCelsius).toBe(0);
    expect(check.verdict).toBe('apply the offset');
  });

  test('unsteady readings and hopeless probes are named', () => {
    expect(checkIcePoint([0.1, 0.9]).verdict).toBe('not steady: wait and repeat');
    expect(checkIcePoint([4.2, 4.3]).verdict).toBe('replace the probe');
  });

  test('a measured pressure is used instead of the altitude', () => {
    expect(checkBoilingPoint([96.7], { altitudeMetres: 1000 }).verdict).toBe('within tolerance');
    expect(checkBoilingPoint([96.7], { pressurePascal: 101_325 }).verdict).toBe('replace the probe');
  });

  test('no readings is an error', () => {
    expect(() => checkIcePoint([])).toThrow(/at least one reading/);
  });
});

test.each([
  ['pt100-aa', 55, 0.1935],
  ['pt100-a', 70, 0.29],
  ['pt100-b', 70, 0.65],
  ['pt100-b', -20, 0.4],
  ['pt100-c', 55, 1.15],
  ['thermocouple-t-2', 55, 1],
  ['thermocouple-k-1', 70, 1.5],
  ['digital', 85, 0.5],
  ['digital', 90, 1],
  ['digital', -40, 2],
] as const)('%s at %f C may be wrong by %f C', (sensor, celsius, tolerance) => {
  expect(sensorTolerance(sensor, celsius)).toBeCloseTo(tolerance, 9);
});

describe('moisture', () => {
  test('the index runs from dry to soaked whichever way the raw value runs', () => {
    expect(moistureIndex(2200, { dryRaw: 3000, wetRaw: 1400 })).toEqual({ index: 0.5, outside: false });
    expect(moistureIndex(0.75, { dryRaw: 0, wetRaw: 1 })).toEqual({ index: 0.75, outside: false });
    expect(moistureIndex(3200, { dryRaw: 3000, wetRaw: 1400 })).toEqual({ index: 0, outside: true });
    expect(() => moistureIndex(1, { dryRaw: 5, wetRaw: 5 })).toThrow(/two different numbers/);
  });

  test('a line through weighed samples, with what is left over', () => {
    const samples = [
      { raw: 2800, wetBasisFraction: 0.35 },
      { raw: 2200, wetBasisFraction: 0.5 },
      { raw: 1600, wetBasisFraction: 0.62 },
    ];
    const fit = fitMoisture(samples);
    expect(fit.residuals.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 12);
    expect(fit.residualDeviation).toBeCloseTo(0.012247, 5);
    expect(applyMoistureFit(2200, fit).wetBasisFraction).toBeCloseTo(0.49, 9);
    expect(applyMoistureFit(1000, fit).insideCalibration).toBe(false);
  });

  test('one sample cannot give a line', () => {
    expect(() => fitMoisture([{ raw: 1, wetBasisFraction: 0.5 }])).toThrow(
      /at least two different raw values/,
    );
  });

  test('volumetric and wet basis there and back', () => {
    const wet = fc.double({ min: 0, max: 0.7, noNaN: true });
    fc.assert(
      fc.property(wet, fc.integer({ min: 80, max: 400 }), (fraction, density) => {
        const volumetric = volumetricFromWetBasis(fraction, density);
        expect(wetBasisFromVolumetric(volumetric, density)).toBeCloseTo(fraction, 9);
      }),
    );
  });

  test('a sample that weighs 100 g wet and 40 g dry holds 60 % water', () => {
    expect(wetBasisFromWeighing(100, 40)).toBeCloseTo(0.6, 12);
    expect(() => wetBasisFromWeighing(40, 100)).toThrow(/dryMass is 100/);
  });
});
