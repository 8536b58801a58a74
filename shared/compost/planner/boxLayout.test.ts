import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { airLayoutOf } from './airLayout.ts';
import { type BoxPlan, boxDistanceToAir, boxFarthest, boxGrids, designBox } from './boxLayout.ts';
import { containerOf, fillingOf } from './container.ts';
import { emptyPlan } from './plan.ts';

const channel = (xMetres: number, yMetres: number) => ({ xMetres, yMetres, radiusMetres: 0.05 });

/** The plain way: every centimetre. */
function bruteFarthest(plan: BoxPlan): number {
  let best = Number.NEGATIVE_INFINITY;
  const [columns, rows] = [Math.round(plan.length * 100), Math.round(plan.width * 100)];
  for (let column = 0; column <= columns; column += 1)
    for (let row = 0; row <= rows; row += 1) {
      const [x, y] = [column / 100 - plan.length / 2, row / 100 - plan.width / 2];
      best = Math.max(best, boxDistanceToAir(plan, x, y));
    }
  return best;
}

describe('air in a box', () => {
  test('bare boards all round have no air; slats leave the middle half the width away', () => {
    expect(boxFarthest({ length: 2, width: 1, wallPermeable: false, channels: [] }).distance).toBe(
      Number.POSITIVE_INFINITY,
    );
    expect(boxFarthest({ length: 2, width: 1, wallPermeable: true, channels: [] }).distance).toBeCloseTo(
      0.5,
      6,
    );
  });

  test('the search finds what looking at every centimetre finds', () => {
    const place = fc.integer({ min: -40, max: 40 }).map((hundredths) => hundredths / 100);
    const plans = fc.record({ x1: place, y1: place, x2: place, y2: place, wallPermeable: fc.boolean() });
    fc.assert(
      fc.property(plans, ({ x1, y1, x2, y2, wallPermeable }) => {
        const plan = { length: 1.2, width: 1, wallPermeable, channels: [channel(x1, y1), channel(x2, y2)] };
        const { distance } = boxFarthest(plan, 1e-4);
        expect(Math.abs(distance - bruteFarthest(plan))).toBeLessThan(0.01);
      }),
      { numRuns: 25 },
    );
  });

  test('a design keeps its distance with no smaller grid that would', () => {
    const box = { length: 1.2, width: 1, wallPermeable: false };
    const design = designBox(box, 0.05, 0.3)!;
    expect(bruteFarthest(design.plan)).toBeLessThanOrEqual(0.3);
    const fewer = boxGrids(box, 0.05, design.plan.channels.length - 1);
    expect(fewer.length).toBeGreaterThan(2);
    for (const { plan } of fewer) expect(bruteFarthest(plan)).toBeGreaterThan(0.29);
  });
});

describe('the container with its air', () => {
  const choice = emptyPlan.container;
  const layoutOf = (parts: Partial<typeof choice>) => {
    const chosen = { ...choice, ...parts };
    const container = containerOf(chosen);
    return airLayoutOf(chosen, container, container.height)!;
  };

  test('a 3.81 m panel without overlap is 1.39 m3 (GEO-01)', () => {
    expect(containerOf({ ...choice, panelOverlap: 0 }).cubicMetres).toBeCloseTo(1.386, 3);
  });

  test('channels chosen by hand stand as asked, and the probe is as deep as the middle', () => {
    const layout = layoutOf({ channelCount: 6 });
    expect(layout.channels).toHaveLength(6);
    expect(layout.probe.depthFromTop).toBeCloseTo(0.6, 3);
    expect(layout.probe.distanceToAir).toBeCloseTo(0.184, 2);
  });

  test('the fewest channels keep the distance asked, round and square, wire and boards', () => {
    for (const form of ['panel', 'box'] as const)
      for (const wallPermeable of [true, false]) {
        const layout = layoutOf({ form, wallPermeable });
        expect(layout.reached, `${form} ${wallPermeable}`).toBe(true);
        expect(layout.planDistance).toBeLessThanOrEqual(0.3001);
      }
  });

  test('says so when no arrangement reaches it, and null when nothing lets air in', () => {
    expect(layoutOf({ form: 'box', boxLength: 6, boxWidth: 6, maximumDistance: 0.1 }).problem).toMatch(
      /wider channels/,
    );
    const closed = { wallPermeable: false, topOpen: false, baseOpen: false, channelCount: 0 };
    expect(layoutOf(closed)).toBeNull();
  });

  test('a mix bigger than its container fills it and the rest is told', () => {
    const container = containerOf(choice);
    const { fillHeight, cubicMetresOver } = fillingOf(container, container.cubicMetres + 0.5);
    expect(fillHeight).toBe(container.height);
    expect(cubicMetresOver).toBeCloseTo(0.5, 9);
  });
});
