import { expect } from 'vitest';
import { bestRing } from '../../shared/compost/geometry/bestRing.ts';
import {
  cageFromPanel,
  panelLengthAsTallAsWide,
  panelLengthForVolume,
} from '../../shared/compost/geometry/cage.ts';
import { distanceField } from '../../shared/compost/geometry/distanceToAir.ts';
import { farthestPoint } from '../../shared/compost/geometry/farthestPoint.ts';
import { centralChannel, type PlanLayout } from '../../shared/compost/geometry/layout.ts';
import {
  type Candidate,
  centralOnly,
  planOfRing,
  type RingLayout,
  ringCandidates,
} from '../../shared/compost/geometry/ringFormulas.ts';
import type { CheckRow } from './checkRow.ts';
import { expectFigures, expectNear } from './expectNear.ts';

/** Six channels of the pack's cage (R 0.60, a 0.05) unless told otherwise. */
function six(ringRadiusMetres: number, other: Partial<RingLayout> = {}): RingLayout {
  const usual = {
    radiusMetres: 0.6,
    wallPermeable: true,
    channelRadiusMetres: 0.05,
    count: 6,
    withCentral: false,
  };
  return { ...usual, ringRadiusMetres, ...other };
}

/** Distance of one candidate of a ring. */
function at(where: Candidate['where'], layout: RingLayout): number {
  return ringCandidates(layout).find((candidate) => candidate.where === where)!.distanceMetres;
}

const searched = (layout: PlanLayout) => farthestPoint(layout, 1e-5).distanceMetres;

const centralPlan = (wallPermeable: boolean): PlanLayout => {
  return { radiusMetres: 0.6, wallPermeable, channels: [centralChannel(0.05)] };
};

/** The same with the channel 1 mm off the axis, which the search has to work for. */
function nudged(wallPermeable: boolean): PlanLayout {
  return { ...centralPlan(wallPermeable), channels: [{ xMetres: 0.001, yMetres: 0, radiusMetres: 0.05 }] };
}

/** Greatest value of the distance field on a 2 mm grid. */
function gridMaximum(layout: PlanLayout): number {
  const compost = distanceField(layout, 0.002).values.filter((value) => !Number.isNaN(value));
  return compost.reduce((most, value) => Math.max(most, value), 0);
}

/** Exact result and grid search both give the distance, to the tolerance the row states. */
function expectBoth(layout: RingLayout, expected: number, tolerance: number): void {
  expectNear(ringCandidates(layout)[0]!.distanceMetres, expected, tolerance);
  expectNear(searched(planOfRing(layout)), expected, tolerance);
}

/** The table of 9.2: ring radius, centre, outer candidate. */
const ringTable = [
  [0.25, 0.2, 0.1848],
  [0.3, 0.25, 0.1739],
  [0.35, 0.3, 0.1676],
  [0.4, 0.35, 0.1677],
  [0.45, 0.4, 0.1774],
] as const;

/** The table of 9.1: L, o, H, R, V, (side + top) / V. */
const panelTable = [
  [3, 0, 1, 0.4775, 0.7162, 5.189],
  [3.6, 0, 1, 0.573, 1.031, 4.491],
  [3.81, 0, 1.2, 0.6064, 1.386, 4.132],
  [4, 0.1, 1.2, 0.6207, 1.452, 4.055],
  [5, 0, 1.5, 0.7958, 2.984, 3.18],
] as const;

export const rows: CheckRow[] = [
  {
    id: 'GEO-01',
    source: '9.1',
    status: 'CP',
    check: () => {
      const cage = cageFromPanel({ lengthMetres: 3.81, overlapMetres: 0, heightMetres: 1.2 });
      expectNear(cage.radiusMetres, 0.6064, 1e-4);
      expectFigures(cage.cubicMetres, 1.386, 4);
    },
  },
  {
    id: 'GEO-02',
    source: '9.2 case B',
    status: 'CP exact',
    check: () => {
      const farthest = centralOnly(0.6, 0.05, true);
      expectNear(farthest.distanceMetres, 0.275, 1e-9);
      expectNear(farthest.radiusMetres, 0.325, 1e-9);
      expectNear(gridMaximum(centralPlan(true)), 0.275, 5e-3);
      expectNear(searched(nudged(true)), 0.275, 5e-3);
    },
  },
  {
    id: 'GEO-03',
    source: '9.2 case C',
    status: 'CP exact',
    check: () => {
      expectNear(centralOnly(0.6, 0.05, false).distanceMetres, 0.55, 1e-9);
      expectNear(gridMaximum(centralPlan(false)), 0.55, 5e-3);
      expectNear(searched(nudged(false)), 0.55, 5e-3);
    },
  },
  {
    id: 'GEO-04',
    source: '9.2 case D',
    status: 'CP exact+grid',
    check: () => {
      expectBoth(six(0.4), 0.35, 1e-4);
      expect(ringCandidates(six(0.4))[0]!.where).toBe('centre');
      expectFigures(at('between ring and wall', six(0.4)), 0.1677, 4);
    },
  },
  {
    id: 'GEO-05',
    source: '9.2, best ring',
    status: 'CP',
    check: () => {
      const best = bestRing(six(0.4))!;
      expectNear(best.layout.ringRadiusMetres, 0.2379, 1e-3);
      expectNear(best.maximumDistanceMetres, 0.1879, 1e-3);
      expectNear(searched(planOfRing(best.layout)), 0.1879, 1e-3);
    },
  },
  {
    id: 'GEO-06',
    source: '9.2, six and a central one',
    status: 'CP',
    check: () => expectBoth(six(0.4, { withCentral: true }), 0.1809, 1e-3),
  },
  {
    id: 'GEO-07',
    source: '9.2 case E',
    status: 'CP',
    check: () => {
      const solid = six(0.4, { wallPermeable: false });
      expectBoth(solid, 0.35, 1e-3);
      expectNear(at('wall', solid), 0.273, 1e-3);
    },
  },
  {
    id: 'CAGE-1',
    source: 'sanitation and safety pack, section 6: mesh 12.5 ft x 5 ft',
    status: 'confirmed dims, computed',
    check: () => {
      const foot = 0.3048;
      const cage = cageFromPanel({ lengthMetres: 12.5 * foot, overlapMetres: 0, heightMetres: 5 * foot });
      expectNear(2 * cage.radiusMetres, 1.213, 5e-3);
      expectNear(cage.cubicMetres, 1.76, 5e-3);
    },
  },
  {
    id: 'GEO-CASE-A',
    source: '9.2 case A (no id in the pack)',
    status: 'CP exact',
    check: () => expectNear(searched({ radiusMetres: 0.6, wallPermeable: true, channels: [] }), 0.6, 1e-9),
  },
  {
    id: 'GEO-PANELS',
    source: '9.1 table and text (no id in the pack)',
    status: 'CP',
    check: () => {
      for (const [lengthMetres, overlapMetres, heightMetres, radius, volume, surface] of panelTable) {
        const cage = cageFromPanel({ lengthMetres, overlapMetres, heightMetres });
        expectFigures(cage.radiusMetres, radius, 4);
        expectFigures(cage.cubicMetres, volume, 4);
        expectFigures(cage.surfaceToVolume, surface, 4);
      }
      expectFigures(panelLengthForVolume(1, 1), 3.545, 4);
      expectFigures(panelLengthForVolume(1, 1.2), 3.236, 4);
      expectFigures(panelLengthAsTallAsWide(1), 3.405, 4);
    },
  },
  {
    id: 'GEO-RINGS',
    source: '9.2 table of six on a ring (no id in the pack)',
    status: 'CP',
    check: () => {
      for (const [radius, centre, outer] of ringTable) {
        expectNear(at('centre', six(radius)), centre, 1e-9);
        expectFigures(at('between ring and wall', six(radius)), outer, 4);
        expectBoth(six(radius), Math.max(centre, outer), 1e-4);
      }
    },
  },
  {
    id: 'GEO-BEST',
    source: '9.2, best ring for N 4, 5, 8; six and a central one; one-foot layout (no id in the pack)',
    status: 'CP',
    check: () => {
      const best = [
        [4, 0.2692, 0.2192],
        [5, 0.2483, 0.1983],
        [8, 0.2283, 0.1783],
      ] as const;
      for (const [count, radius, distance] of best) {
        const found = bestRing(six(0.3, { count }))!;
        expectNear(found.layout.ringRadiusMetres, radius, 1e-3);
        expectNear(found.maximumDistanceMetres, distance, 1e-3);
      }
      const withCentral = [
        [0.3, 0.1739],
        [0.35, 0.1676],
        [0.4, 0.1809],
        [0.45, 0.2098],
      ] as const;
      for (const [radius, distance] of withCentral)
        expectBoth(six(radius, { withCentral: true }), distance, 3e-4);
      const oneFoot = six(0.3556, { radiusMetres: 3.81 / (2 * Math.PI), channelRadiusMetres: 0.0508 });
      expectBoth(oneFoot, 0.3048, 1e-4);
    },
  },
];
