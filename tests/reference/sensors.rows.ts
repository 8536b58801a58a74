import { expect } from 'vitest';
import { boilingPointAtAltitude, boilingPointAtPressure } from '../../shared/compost/sensors/boilingPoint.ts';
import { checkBoilingPoint, checkIcePoint } from '../../shared/compost/sensors/pointCheck.ts';
import { sensorTolerance } from '../../shared/compost/sensors/tolerance.ts';
import { celsiusFromFahrenheit, fahrenheitDifferenceFromCelsius } from '../../shared/units/temperature.ts';
import type { CheckRow } from './checkRow.ts';

const boilingSource = 'IAPWS-IF97 and standard atmosphere';

/** The pack allows 0.05 C. */
function boilingRow(id: string, altitudeMetres: number, celsius: number, status: string): CheckRow {
  return {
    id,
    source: boilingSource,
    status,
    check: () => {
      expect(Math.abs(boilingPointAtAltitude(altitudeMetres) - celsius)).toBeLessThanOrEqual(0.05);
      expect(checkBoilingPoint([celsius], { altitudeMetres }).verdict).toBe('within tolerance');
    },
  };
}

export const rows: CheckRow[] = [
  {
    id: 'CAL-0',
    source: 'ice point',
    status: 'confirmed',
    check: () => {
      const limits = {
        toleranceCelsius: sensorTolerance('digital', 0),
        replaceBeyondCelsius: 3,
        steadyWithinCelsius: 0.3,
      };
      expect(checkIcePoint([0.5], limits)).toMatchObject({
        trueCelsius: 0,
        offsetCelsius: -0.5,
        verdict: 'within tolerance',
      });
      expect(checkIcePoint([0.5625], limits).verdict).toBe('apply the offset');
    },
  },
  {
    id: 'CAL-1',
    source: boilingSource,
    status: 'computed',
    check: () => expect(Math.abs(boilingPointAtPressure(101_325) - 99.97)).toBeLessThanOrEqual(0.05),
  },
  boilingRow('CAL-2', 500, 98.31, 'computed'),
  boilingRow('CAL-3', 1524, 94.9, 'computed, confirmed range'),
  boilingRow('CAL-4', 3048, 89.81, 'computed, confirmed range'),
  {
    id: 'TOL-1',
    source: 'IEC 60751',
    status: 'memory formula, computed',
    check: () => expect(sensorTolerance('pt100-b', 55)).toBeCloseTo(0.575, 6),
  },
  {
    id: 'UNIT-1',
    source: 'arithmetic',
    status: 'computed',
    check: () => expect(celsiusFromFahrenheit(131)).toBe(55),
  },
  {
    id: 'UNIT-2',
    source: 'arithmetic',
    status: 'computed',
    check: () => expect(fahrenheitDifferenceFromCelsius(10)).toBe(18),
  },
];
