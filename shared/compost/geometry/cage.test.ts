import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyRing, between } from '../../../tests/helpers/rings.ts';
import { cageFromPanel, panelLengthForVolume } from './cage.ts';
import { distanceToAir } from './distanceToAir.ts';
import { drawCage } from './drawing.ts';
import { centralChannel, type PlanLayout, ring } from './layout.ts';
import { materialsFor } from './materials.ts';
import { probePlace } from './probePlace.ts';
import { planOfRing } from './ringFormulas.ts';

const open = { heightMetres: 1.2, topOpen: true, baseOpen: true };

describe('place of the core probe', () => {
  const plan: PlanLayout = { radiusMetres: 0.6, wallPermeable: true, channels: [centralChannel(0.05)] };

  test('open at both ends: half way up, as far from top as from base', () => {
    const place = probePlace(plan, open);
    expect(place.distanceToAirMetres).toBeCloseTo(0.275, 9);
    expect(place.depthFromTopMetres).toBeCloseTo(0.6, 9);
    expect(place.depthFromWallMetres).toBeCloseTo(0.275, 9);
    expect(place.heightRangeMetres[0]).toBeCloseTo(0.275, 9);
  });

  test('a low pile is limited by its height, a closed base sends the probe lower', () => {
    expect(probePlace(plan, { ...open, heightMetres: 0.4 }).distanceToAirMetres).toBeCloseTo(0.2, 9);
    const standing = probePlace(plan, { ...open, baseOpen: false });
    expect(standing.heightRangeMetres[0]).toBe(0);
    expect(standing.zMetres).toBeLessThan(0.6);
  });

  test('no point of the pile is farther from air', () => {
    const coordinate = between(-0.6, 0.6);
    fc.assert(
      fc.property(
        anyRing,
        coordinate,
        coordinate,
        between(0, 1.2),
        fc.boolean(),
        (layout, x, y, z, baseOpen) => {
          const ends = { ...open, baseOpen };
          const place = probePlace(planOfRing(layout), ends);
          const scale = Math.min(1, layout.radiusMetres / Math.hypot(x, y));
          const there = distanceToAir(planOfRing(layout), ends, x * scale, y * scale, z);
          expect(there).toBeLessThanOrEqual(place.distanceToAirMetres + 1.01e-4);
          const atTip = distanceToAir(planOfRing(layout), ends, place.xMetres, place.yMetres, place.zMetres);
          expect(atTip).toBeCloseTo(place.distanceToAirMetres, 9);
        },
      ),
    );
  });

  test('a pile with no air from any side has no such place', () => {
    const closed: PlanLayout = { radiusMetres: 0.6, wallPermeable: false, channels: [] };
    expect(() => probePlace(closed, { heightMetres: 1, topOpen: false, baseOpen: false })).toThrow(
      /has no air/,
    );
    expect(probePlace(closed, { heightMetres: 1, topOpen: true, baseOpen: false }).distanceToAirMetres).toBe(
      1,
    );
  });
});

describe('cage and materials', () => {
  test('a panel cut for a volume encloses it', () => {
    fc.assert(
      fc.property(
        between(0.2, 5),
        between(0.5, 2),
        between(0, 0.2),
        (cubicMetres, heightMetres, overlapMetres) => {
          const lengthMetres = panelLengthForVolume(cubicMetres, heightMetres, overlapMetres);
          const cage = cageFromPanel({ lengthMetres, overlapMetres, heightMetres });
          expect(cage.cubicMetres).toBeCloseTo(cubicMetres, 9);
        },
      ),
    );
    expect(() => cageFromPanel({ lengthMetres: 1, overlapMetres: 1, heightMetres: 1 })).toThrow(
      /overlapMetres is 1/,
    );
  });

  test('counts fabric and whole pipes', () => {
    const cage = cageFromPanel({ lengthMetres: 3.81, overlapMetres: 0, heightMetres: 1.524 });
    const choices = {
      fabricOverlapMetres: 0.19,
      fabricFoldMetres: 0.076,
      coverTop: true,
      coverBase: false,
      channelCount: 6,
      channelExtraMetres: 0,
      stockLengthMetres: 3.048,
    };
    const needed = materialsFor(cage, choices);
    expect(needed.fabricSquareMetres).toBeCloseTo(4 * 1.6 + cage.floorAreaSquareMetres, 9);
    expect(needed.channelTotalMetres).toBeCloseTo(9.144, 9);
    expect(needed.stockLengths).toBe(3);
    expect(materialsFor(cage, { ...choices, channelExtraMetres: 0.1 }).stockLengths).toBe(6);
    expect(materialsFor(cage, { ...choices, stockLengthMetres: 1 }).stockLengths).toBeNull();
  });
});

test('the section is cut through the probe and shows what it cuts', () => {
  const layout = {
    radiusMetres: 0.6,
    wallPermeable: true,
    channels: [...ring(6, 0.4, 0.05), centralChannel(0.05)],
  };
  const { plan, section, place } = drawCage(layout, open);
  expect(section.channels).toHaveLength(7);
  expect(section.channels[6]!.left).toBeCloseTo(-0.05, 12);
  expect(section.channels[6]!.right).toBeCloseTo(0.05, 12);
  expect(section.channels[6]!.isCut).toBe(true);
  expect(section.probe.across).toBeCloseTo(Math.hypot(plan.probe.x, plan.probe.y), 12);
  const { x1, y1, x2, y2 } = plan.sectionLine;
  expect(Math.hypot(x2 - x1, y2 - y1)).toBeCloseTo(section.width, 12);
  expect((x2 - x1) * (plan.probe.y - y1)).toBeCloseTo((y2 - y1) * (plan.probe.x - x1), 9);
  expect(section.probe.up).toBe(place.zMetres);
});
