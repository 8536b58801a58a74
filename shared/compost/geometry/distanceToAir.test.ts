import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyRing, between } from '../../../tests/helpers/rings.ts';
import { bestRing } from './bestRing.ts';
import { designChannels, layoutChoices } from './channelDesign.ts';
import { distanceField, distanceToAir, planDistanceToAir } from './distanceToAir.ts';
import { farthestPoint } from './farthestPoint.ts';
import { centralChannel, checkLayout, type PlanLayout, ring } from './layout.ts';
import { planOfRing, ringCandidates, ringMaximumDistance } from './ringFormulas.ts';

const open = { heightMetres: 1.2, topOpen: true, baseOpen: true };

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
