import { expect } from 'vitest';
import {
  bulkDensityAtFreeAirSpace,
  effectiveDiffusivityShare,
  type FreeAirSpaceFormula,
  freeAirSpace,
  highestMoistureWithFreeAirSpace,
} from '../../shared/compost/mix/freeAirSpace.ts';
import type { CheckRow } from './checkRow.ts';
import { expectNear } from './expectNear.ts';

/** The check table of section 3: bulk density, moisture, organic, then 3a, 3b, 100-0.090BD, 100-0.096BD. */
const table = [
  [300, 0.5, 0.9, 0.7596, 0.709, 0.73, 0.712],
  [400, 0.55, 0.9, 0.6715, 0.6108, 0.64, 0.616],
  [500, 0.6, 0.85, 0.5817, 0.518, 0.55, 0.52],
  [500, 0.4, 0.85, 0.6226, 0.527, 0.55, 0.52],
  [593, 0.6, 0.85, 0.504, 0.4283, 0.4663, 0.4307],
  [650, 0.6, 0.8, 0.4592, 0.3812, 0.415, 0.376],
  [700, 0.6, 0.8, 0.4176, 0.3336, 0.37, 0.328],
  [800, 0.65, 0.8, 0.3176, 0.2336, 0.28, 0.232],
] as const;
const columns: readonly FreeAirSpaceFormula[] = [
  'constituent-densities',
  'specific-gravities',
  'pycnometer-fit',
  'particle-density-fit',
];

const tableRows = table.map(([density, moisture, organic, ...expected]): CheckRow => {
  return {
    id: `FAS-TABLE-${density}-${moisture}`,
    source: 'section 3 check table',
    status: 'CP',
    check: () => {
      for (const [index, formula] of columns.entries())
        expect(freeAirSpace(formula, density, moisture, organic), formula).toBeCloseTo(expected[index]!, 4);
    },
  };
});

export const rows: CheckRow[] = [
  {
    id: 'FAS-01',
    source: 'section 3, 3a and 3b',
    status: 'MU+CP',
    check: () => {
      expectNear(freeAirSpace('constituent-densities', 500, 0.6, 0.85), 0.5817, 1e-3);
      expectNear(freeAirSpace('specific-gravities', 500, 0.6, 0.85), 0.518, 1e-3);
    },
  },
  {
    id: 'FAS-02',
    source: '3c',
    status: 'CL',
    check: () => {
      expectNear(freeAirSpace('pycnometer-fit', 500, 0.6, 0.85), 0.55, 1e-9);
      expectNear(freeAirSpace('particle-density-fit', 500, 0.6, 0.85), 0.52, 1e-9);
    },
  },
  {
    id: 'FAS-03',
    source: '3a',
    status: 'MU+CP',
    check: () => expectNear(freeAirSpace('constituent-densities', 800, 0.65, 0.8), 0.3176, 1e-3),
  },
  {
    id: 'FAS-04',
    source: '3d',
    status: 'CL',
    check: () => expectNear(effectiveDiffusivityShare(0.35), 0.1225, 1e-9),
  },
  {
    id: 'FAS-INVERSE',
    source: 'section 3, text below the check table (no id in the pack)',
    status: 'CP',
    check: () => {
      expectNear(bulkDensityAtFreeAirSpace('constituent-densities', 0.3, 0.6, 0.85), 836.8, 1e-4);
      expectNear(bulkDensityAtFreeAirSpace('constituent-densities', 0.35, 0.6, 0.85), 777.0, 1e-4);
      expectNear(bulkDensityAtFreeAirSpace('pycnometer-fit', 0.3, 0.6, 0.85), 777.8, 1e-4);
      expectNear(bulkDensityAtFreeAirSpace('pycnometer-fit', 0.35, 0.6, 0.85), 722.2, 1e-4);
    },
  },
  {
    id: 'FAS-MOISTURE',
    source: 'section 3, text below the check table (no id in the pack)',
    status: 'CP',
    check: () => {
      const highest = (dry: number) =>
        highestMoistureWithFreeAirSpace('constituent-densities', 0.3, dry, 0.85);
      expectNear(highest(150), 0.803, 1e-4);
      expectNear(highest(200), 0.7442, 1e-4);
      expectNear(highest(250), 0.6884, 1e-4);
    },
  },
  ...tableRows,
];
