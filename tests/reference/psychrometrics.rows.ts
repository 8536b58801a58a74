import { expect } from 'vitest';
import {
  dewPoint,
  humidityRatio,
  moistAirDensity,
  moistAirEnthalpy,
  saturatedAirEnthalpy,
  saturationHumidityRatio,
  standardPressure,
  wetBulb,
} from '../../shared/compost/psychrometrics.ts';
import {
  saturationPressure,
  saturationPressureMagnus,
  saturationPressureOverIce,
  saturationPressureOverWater,
} from '../../shared/compost/saturationPressure.ts';
import type { CheckRow } from './checkRow.ts';
import { expectNear } from './expectNear.ts';

/** Compares a function with the pack at each temperature. */
function eachNear(
  actual: (celsius: number) => number,
  pairs: readonly (readonly [celsius: number, expected: number])[],
  tolerance: number,
): void {
  for (const [celsius, expected] of pairs) expectNear(actual(celsius), expected, tolerance);
}

export const rows: CheckRow[] = [
  {
    id: 'PSY-01',
    source: 'ASHRAE 2017 T3',
    status: 'CL',
    check: () => {
      const pairs = [
        [25, 3169.7],
        [50, 12351.3],
      ] as const;
      eachNear(saturationPressure, pairs, 3e-4);
    },
  },
  {
    id: 'PSY-02',
    source: 'ASHRAE 2017 T3',
    status: 'CL',
    check: () => {
      const pairs = [
        [5, 872.6],
        [-5, 401.74],
        [-20, 103.24],
      ] as const;
      eachNear(saturationPressure, pairs, 3e-4);
    },
  },
  {
    id: 'PSY-03',
    source: '6a, over ice',
    status: 'CL+CP',
    check: () => {
      expectNear(saturationPressureOverIce(-10), 259.9, 1e-3);
      expectNear(saturationPressure(-10), 259.9, 1e-3);
    },
  },
  {
    id: 'PSY-04',
    source: '6b, over water',
    status: 'CL+CP',
    check: () => {
      const pairs = [
        [40, 7383],
        [55, 15760],
        [60, 19944],
        [70, 31198],
      ] as const;
      eachNear(saturationPressureOverWater, pairs, 5e-4);
    },
  },
  {
    id: 'PSY-05',
    source: 'ASHRAE 2017 T2',
    status: 'CL',
    check: () => {
      const pairs = [
        [25, 0.020173],
        [50, 0.086863],
      ] as const;
      eachNear((celsius) => saturationHumidityRatio(celsius), pairs, 1e-2);
    },
  },
  {
    id: 'PSY-06',
    source: 'ASHRAE 2017 T2',
    status: 'CL',
    check: () => {
      const pairs = [
        [25, 76.504],
        [50, 275.353],
      ] as const;
      eachNear((celsius) => saturatedAirEnthalpy(celsius), pairs, 1e-2);
    },
  },
  {
    id: 'PSY-07',
    source: 'psychrolib tests',
    status: 'CL',
    check: () => expectNear(moistAirEnthalpy(30, 0.02), 81.316, 3e-4),
  },
  {
    id: 'PSY-08',
    source: 'psychrolib tests',
    status: 'CL',
    check: () => expectNear(moistAirDensity(30, 0.02, 95461), 1.0841, 3e-4),
  },
  {
    id: 'PSY-09',
    source: 'psychrolib',
    status: 'CP',
    check: () => {
      const ratio = humidityRatio(20, 0.5);
      expectNear(ratio, 0.007262, 1e-3);
      expectNear(wetBulb(20, ratio), 13.78, 1e-3);
      expectNear(dewPoint(0.5 * saturationPressure(20)), 9.272, 1e-3);
    },
  },
  {
    id: 'PSY-10',
    source: '6c, Magnus after Sonntag 1990',
    status: 'CL+CP',
    check: () => {
      expectNear(saturationPressureMagnus(70), 31398, 1e-4);
      const aboveReference = saturationPressureMagnus(70) / 31201 - 1;
      expect(aboveReference).toBeCloseTo(0.0063, 4);
    },
  },
  {
    id: 'PSY-11',
    source: 'ASHRAE T1',
    status: 'CL',
    check: () => expect(Math.abs(standardPressure(500) - 95461)).toBeLessThanOrEqual(1),
  },
];
