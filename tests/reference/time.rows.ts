import { expect } from 'vitest';
import { settledVolumeFraction, settlingRateForHalf } from '../../shared/compost/heat/settling.ts';
import { evaluateSanitisation } from '../../shared/compost/sanitisation/evaluate.ts';
import { findRuleSet } from '../../shared/compost/sanitisation/ruleSets.ts';
import { meansOf, pileOf } from '../../shared/compost/sanitisation/testPile.ts';
import { daysByEquation } from '../../shared/compost/sanitisation/timeTemperature.ts';
import { exothermicIndex } from '../../shared/compost/stages/exothermicIndex.ts';
import { heatUnits } from '../../shared/compost/stages/heatUnits.ts';
import type { CheckRow } from './checkRow.ts';
import { expectNear } from './expectNear.ts';

const dailyMeans = [25, 38, 50, 58, 61, 60, 57, 52, 46, 40];
const msPerDay = 86_400_000;

export const rows: CheckRow[] = [
  {
    id: 'TIME-01',
    source: '40 CFR 257 App. II',
    status: 'CL (confirmed by lookup)',
    check: () => {
      const vessel = pileOf([meansOf([{ hours: 72, celsius: 55 }])]);
      expect(evaluateSanitisation(findRuleSet('us-pfrp-in-vessel'), vessel).outcome).toBe('consistent');
      const windrow = pileOf([meansOf([{ hours: 360, celsius: 55 }])], { turnedOnDays: [1, 4, 7, 10, 13] });
      expect(evaluateSanitisation(findRuleSet('us-pfrp-windrow'), windrow).outcome).toBe('consistent');
    },
  },
  {
    id: 'TIME-02',
    source: '40 CFR 503.32(a)(3)',
    status: 'MU+CP (from memory, computed)',
    check: () => {
      expectNear(daysByEquation(2, 55), 2.628, 1e-3);
      expectNear(daysByEquation(2, 60), 0.5243, 1e-3);
    },
  },
  {
    id: 'TIME-03',
    source: 'section 7.4',
    status: 'CP (computed)',
    check: () => {
      const rate = settlingRateForHalf(0.35, 30);
      expectNear(rate, 0.04888, 1e-3);
      expectNear(settledVolumeFraction(0.35, rate, 60), 0.3846, 1e-3);
    },
  },
  {
    id: 'TIME-04',
    source: 'section 7.5, Bernal group; Mason and Milke 2005',
    status: 'MU+CP (from memory, computed)',
    check: () => {
      const days = dailyMeans.map((coreCelsius) => ({ coreCelsius, airCelsius: 15 }));
      expect(exothermicIndex(days, 40)).toMatchObject({ index: 304, squared: 11934, daysUnknown: 0 });
      expect(exothermicIndex(days, null).index).toBe(337);
      const samples = dailyMeans.map((value, day) => ({ timeMs: day * msPerDay, value }));
      const series = { ...meansOf([]), samples, intervalMs: msPerDay };
      const window = { fromMs: 0, toMs: 10 * msPerDay, maximumGapMs: 0 };
      expect(heatUnits(series, [], window).above[0]).toMatchObject({ celsius: 40, areaCelsiusDays: 104 });
    },
  },
];
