import { expect } from 'vitest';
import { hampel, hampelOutliers } from '../../shared/statistics/hampel.ts';
import { mannKendall } from '../../shared/statistics/mannKendall.ts';
import { modifiedZ } from '../../shared/statistics/modifiedZ.ts';
import { theilSen } from '../../shared/statistics/theilSen.ts';
import type { CheckRow } from './checkRow.ts';
import { expectNear } from './expectNear.ts';

/** The pack's examples use the strict form: no floor under the spread. */
const strict = { neighbours: 3, threshold: 3, resolutionFloor: 0 };
const spiked = [55.1, 55.3, 55.2, 55.4, 55.6, 71.0, 55.7, 55.8, 56.0, 55.9, 56.1];
const falling = [62.0, 61.2, 60.9, 59.8, 65.5, 58.4, 57.9, 57.1];
const rising = [1.0, 2.3, 3.1, 4.5, 5.2, 6.8, 7.1, 8.9, 9.5, 10.2];
const tied = [40, 42, 42, 45, 44, 47, 47, 50, 49, 52];
const flat = [38.2, 38.0, 38.3, 38.1, 38.2, 38.0, 38.1, 38.2, 37.9, 38.1];

const line = (values: number[]) => theilSen([...values.keys()], values);

export const rows: CheckRow[] = [
  {
    id: 'STAT-01',
    source: '8.1 Hampel',
    status: 'CL+CP',
    check: () => {
      expect(hampelOutliers(spiked, strict)).toEqual([5]);
      const points = hampel(spiked, strict);
      expectNear(points[5]!.limit, 1.334, 1e-3);
      expectNear(points[5]!.median, 55.7, 1e-9);
      expectNear(points[2]!.limit, 0.8896, 1e-3);
      expectNear(points[2]!.median, 55.35, 1e-9);
    },
  },
  {
    id: 'STAT-02',
    source: '8.1 Hampel, MAD 0',
    status: 'CL+CP',
    check: () => {
      const repeated = [20, 20, 20, 25, 20, 20, 20];
      expect(hampel(repeated, strict)[3]!.limit).toBe(0);
      expect(hampelOutliers(repeated, strict)).toEqual([3]);
    },
  },
  {
    id: 'STAT-03',
    source: '8.1 modified z',
    status: 'CL2+CP',
    check: () => expectNear(modifiedZ(spiked)[5]!, 34.4, 1e-3),
  },
  {
    id: 'STAT-04',
    source: '8.2 Theil-Sen',
    status: 'CL+CP',
    check: () => {
      const fitted = line(falling);
      expectNear(fitted.slope, -0.7, 1e-9);
      expectNear(fitted.intercept, 62.8, 1e-9);
      expect(fitted.pairCount).toBe(28);
      expectNear(fitted.slopeLow, -0.8, 1e-9);
      expectNear(fitted.slopeHigh, -0.5, 1e-9);
    },
  },
  {
    id: 'STAT-05',
    source: '8.3 Mann-Kendall',
    status: 'CL+CP',
    check: () => {
      const trend = mannKendall(falling);
      expect(trend.s).toBe(-20);
      expectNear(trend.variance, 65.33, 1e-3);
      expectNear(trend.z, -2.351, 1e-3);
      expectNear(trend.p, 0.01874, 1e-3);
    },
  },
  {
    id: 'STAT-06',
    source: '8.3, docs.rs example',
    status: 'CL+CP',
    check: () => {
      const trend = mannKendall(rising);
      expect([trend.s, trend.variance]).toEqual([45, 125]);
      expectNear(trend.z, 3.935, 1e-3);
      expectNear(trend.p, 8.303e-5, 1e-3);
      expect(trend.tau).toBeGreaterThan(0.8);
      expectNear(line(rising).slope, 1.05, 1e-3);
    },
  },
  {
    id: 'STAT-07',
    source: '8.3, two tie pairs',
    status: 'CP',
    check: () => {
      const trend = mannKendall(tied);
      expect([trend.s, trend.variance]).toEqual([39, 123]);
      expectNear(trend.z, 3.426, 1e-3);
      expectNear(trend.p, 6.118e-4, 1e-3);
      expectNear(line(tied).slope, 1.25, 1e-3);
    },
  },
  {
    id: 'STAT-FLAT',
    source: '8.3 table, flat series (no id in the pack)',
    status: 'CP',
    check: () => {
      const trend = mannKendall(flat);
      expect(trend.s).toBe(-10);
      expectNear(trend.variance, 116.7, 1e-3);
      expectNear(trend.z, -0.8332, 1e-3);
      expectNear(trend.p, 0.4047, 1e-3);
      expectNear(line(flat).slope, -0.01429, 1e-3);
    },
  },
];
