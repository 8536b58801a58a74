import { describe, expect, it } from 'vitest';
import { designOf } from '../../../../shared/compost/planner/pileDesign.ts';
import { emptyPlan } from '../../../../shared/compost/planner/plan.ts';
import { cutChannels, pileShape, spotOf, surfaceAt } from './pileShape.ts';

const cage = pileShape('static-cage', null, [0.6]);
const windrow = pileShape('turned-windrow', null, [0.6]);
const planned = pileShape('static-cage', designOf(emptyPlan)!.form, []);

describe('where a probe is drawn', () => {
  it('is as deep below the surface as was entered, in a cage and under the slope of a heap', () => {
    for (const [pile, position] of [
      [cage, 'core'],
      [cage, 'edge'],
      [windrow, 'shoulder'],
    ] as const) {
      const { across, up } = spotOf(pile, position, 0.3, 0);
      expect(surfaceAt(pile, across) - up).toBeCloseTo(0.3, 9);
    }
  });

  it('lies further out from core to edge, and inside the pile whatever was entered', () => {
    const across = (['core', 'shoulder', 'edge'] as const).map(
      (position) => spotOf(cage, position, 0.3, 0).across,
    );
    expect(across).toEqual([...across].sort((one, other) => one - other));
    for (const depth of [0, 0.4, 9])
      for (let before = 0; before < 8; before += 1) {
        const { across: out, up } = spotOf(cage, 'edge', depth, before);
        expect(Math.abs(out)).toBeLessThan(cage.halfWidth);
        expect(up).toBeGreaterThanOrEqual(0);
      }
  });

  it('keeps two at one position apart', () => {
    expect(spotOf(cage, 'core', 0.5, 0).across).not.toBeCloseTo(spotOf(cage, 'core', 0.5, 1).across, 2);
  });
});

describe('the form of a pile', () => {
  it('nobody planned is tall enough for its deepest probe, and says that it is a usual one', () => {
    expect(pileShape('hot-bin', null, [1.4, null]).height).toBeCloseTo(1.65, 9);
    expect(cage.isPlanned).toBe(false);
  });

  it('planned here has its channels and its core probe where the plan puts them', () => {
    const { form } = designOf(emptyPlan)!;
    expect(planned.channels).toHaveLength(form.channels.length);
    const { x, y } = spotOf(planned, 'core', null, 0);
    expect(Math.hypot(x - form.coreProbe!.x, y - form.coreProbe!.y)).toBeLessThan(1e-9);
    expect(planned.isPlanned).toBe(true);
  });

  it('shows a channel the cut goes through no wider than it is', () => {
    const cut = cutChannels(planned);
    expect(cut).toHaveLength(planned.channels.length);
    cut.forEach(({ left, right }, index) => {
      expect(right - left).toBeLessThanOrEqual(2 * planned.channels[index]!.radius + 1e-9);
      expect(right).toBeGreaterThan(left);
    });
  });
});
