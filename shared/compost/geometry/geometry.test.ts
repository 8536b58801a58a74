import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bestRing } from './bestRing.ts';
import { cageFromPanel, panelLengthForVolume } from './cage.ts';
import { designChannels, layoutChoices } from './channelDesign.ts';
import { distanceField, distanceToAir, planDistanceToAir } from './distanceToAir.ts';
import { drawCage } from './drawing.ts';
import { farthestPoint } from './farthestPoint.ts';
import { centralChannel, checkLayout, type PlanLayout, ring } from './layout.ts';
import { materialsFor } from './materials.ts';
import { probePlace } from './probePlace.ts';
import {
  planOfRing,
  type RingLayout,
  ringCandidates,
  ringMaximumDistance,
  ringRadiusRange,
} from './ringFormulas.ts';

const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const open = { heightMetres: 1.2, topOpen: true, baseOpen: true };

/** Any ring that fits: two to nine channels, with or without one on the axis, either wall. */
const anyRing: fc.Arbitrary<RingLayout> = fc
  .record({
    radiusMetres: between(0.35, 1.2),
    wallPermeable: fc.boolean(),
    channelRadiusMetres: between(0.02, 0.05),
    count: fc.integer({ min: 2, max: 9 }),
    withCentral: fc.boolean(),
    share: between(0, 1),
  })
  .map(({ share, ...choice }) => {
    const { low, high } = ringRadiusRange(choice);
    return { ...choice, ringRadiusMetres: low + share * (high - low) };
  });

describe('distance to air', () => {
  test('changes by no more than the distance moved', () => {
    const coordinate = between(-1.5, 1.5);
    const point = fc.tuple(coordinate, coordinate, between(0, 1.2));
    fc.assert(
      fc.property(anyRing, point, point, (layout, [x1, y1, z1], [x2, y2, z2]) => {
        const plan = planOfRing(layout);
        const moved = Math.hypot(x2 - x1, y2 - y1, z2 - z1);
        const change = distanceToAir(plan, open, x2, y2, z2) - distanceToAir(plan, open, x1, y1, z1);
        expect(Math.abs(change)).toBeLessThanOrEqual(moved + 1e-12);
      }),
    );
  });

  test('is 0 at the wall and at the edge of a channel, and the field leaves out what is not compost', () => {
    const plan: PlanLayout = { radiusMetres: 0.6, wallPermeable: true, channels: [centralChannel(0.05)] };
    expect(planDistanceToAir(plan, 0.6, 0)).toBeCloseTo(0, 12);
    expect(planDistanceToAir(plan, 0, 0.05)).toBeCloseTo(0, 12);
    const field = distanceField(plan, 0.02);
    expect(field.values[0]).toBeNaN();
    expect(field.values[(field.values.length - 1) / 2]).toBeNaN();
    const compost = field.values.filter((value) => !Number.isNaN(value));
    expect(compost.length * 0.02 ** 2).toBeCloseTo(Math.PI * (0.6 ** 2 - 0.05 ** 2), 1);
  });
});

describe('farthest point', () => {
  test('the exact ring result is what the search finds, for any ring', () => {
    fc.assert(
      fc.property(anyRing, (layout) => {
        const searched = farthestPoint(planOfRing(layout), 1e-4).distanceMetres;
        expect(Math.abs(ringMaximumDistance(layout) - searched)).toBeLessThanOrEqual(1.01e-4);
      }),
    );
  });

  test('no point of a fine grid is farther, for channels placed by hand', () => {
    const by = (xMetres: number, yMetres: number, radiusMetres: number) => ({
      xMetres,
      yMetres,
      radiusMetres,
    });
    const channels = [by(0.2, 0.1, 0.05), by(-0.25, 0.3, 0.04), by(-0.1, -0.35, 0.06)];
    const plan = { radiusMetres: 0.7, wallPermeable: true, channels };
    const found = farthestPoint(plan);
    const field = distanceField(plan, 0.005).values.filter((value) => !Number.isNaN(value));
    const most = field.reduce((greatest, value) => Math.max(greatest, value), 0);
    expect(found.distanceMetres).toBeGreaterThanOrEqual(most - 1e-4);
    expect(found.distanceMetres).toBeLessThanOrEqual(most + 0.005);
    expect(planDistanceToAir(plan, found.xMetres, found.yMetres)).toBeCloseTo(found.distanceMetres, 12);
  });

  test('a plan without any air is infinitely far; channels that overlap or leave the pile are refused', () => {
    const closed: PlanLayout = { radiusMetres: 0.6, wallPermeable: false, channels: [] };
    expect(farthestPoint(closed).distanceMetres).toBe(Number.POSITIVE_INFINITY);
    expect(() => checkLayout({ ...closed, channels: ring(6, 0.58, 0.05) })).toThrow(
      /outer edge of channel 1/,
    );
    expect(() => checkLayout({ ...closed, channels: ring(12, 0.12, 0.05) })).toThrow(/channels 1 and 2 are/);
  });
});

describe('rings', () => {
  test('no other ring radius does better than the best one', () => {
    fc.assert(
      fc.property(anyRing, (layout) => {
        const best = bestRing(layout)!;
        expect(best.maximumDistanceMetres).toBeLessThanOrEqual(ringMaximumDistance(layout) + 1e-6);
      }),
    );
  });

  test('a design keeps its promise over the whole plan, for any pile', () => {
    const problem = fc.record({
      radiusMetres: between(0.2, 1.4),
      wallPermeable: fc.boolean(),
      channelRadiusMetres: between(0.03, 0.06),
      maximumDistanceMetres: between(0.2, 0.4),
    });
    let designed = 0;
    fc.assert(
      fc.property(problem, (asked) => {
        const design = designChannels(asked);
        if (design === null) return;
        designed += 1;
        expect(design.reachedDistanceMetres).toBeLessThanOrEqual(asked.maximumDistanceMetres + 1e-9);
      }),
    );
    expect(designed).toBeGreaterThan(90);
  });

  test('a 1.2 m cage of wire and cloth needs one channel, the same cage of boards needs more', () => {
    const cage = { radiusMetres: 0.6064, channelRadiusMetres: 0.05 };
    expect(designChannels({ ...cage, wallPermeable: true })!.layout.channels).toHaveLength(1);
    expect(designChannels({ ...cage, wallPermeable: false })!.layout.channels.length).toBeGreaterThan(5);
    expect(
      designChannels({ radiusMetres: 0.28, channelRadiusMetres: 0.05, wallPermeable: true })!.rings,
    ).toEqual([]);
  });

  test('choices show what each more channel buys, each with a layout that holds', () => {
    const choices = layoutChoices({ radiusMetres: 0.6064, wallPermeable: true, channelRadiusMetres: 0.05 });
    expect(choices.slice(0, 2).map((choice) => choice.description)).toEqual([
      'no channel',
      'one channel on the axis',
    ]);
    for (const choice of choices) {
      expect(choice.layout.channels).toHaveLength(choice.channelCount);
      expect(farthestPoint(choice.layout).distanceMetres).toBeCloseTo(choice.maximumDistanceMetres, 3);
    }
  });

  test('rings that cannot be are refused', () => {
    const ringOf = (ringRadiusMetres: number) => () =>
      ringCandidates({
        radiusMetres: 0.6,
        wallPermeable: true,
        channelRadiusMetres: 0.05,
        count: 6,
        ringRadiusMetres,
        withCentral: false,
      });
    expect(ringOf(0.58)).toThrow(/ringRadiusMetres is 0.58; allowed is/);
    expect(ringOf(0.05)).toThrow(/ringRadiusMetres is 0.05/);
    expect(
      bestRing({
        radiusMetres: 0.2,
        wallPermeable: true,
        channelRadiusMetres: 0.06,
        count: 9,
        withCentral: false,
      }),
    ).toBeNull();
  });
});

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
