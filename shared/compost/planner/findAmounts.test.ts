import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Finding, findAmounts, withAmounts } from './findAmounts.ts';
import { plannedMix } from './mixRanges.ts';
import { noFigures } from './plan.ts';
import { aimsOf, planOf } from './testPlan.ts';

const find = { find: true };
const aims = aimsOf({ carbonToNitrogen: 30, moisture: 0.6 });

function found(finding: Finding): readonly number[] {
  if (finding.kind !== 'found') throw new Error(JSON.stringify(finding));
  return [...finding.amounts.values()];
}

function refused(finding: Finding): Extract<Finding, { kind: 'infeasible' }> {
  if (finding.kind !== 'infeasible') throw new Error(JSON.stringify(finding));
  return finding;
}

describe('working out amounts', () => {
  test('one unknown: straw for C:N, water being typed', () => {
    const plan = planOf(
      [
        ['broiler-litter', { amount: 100 }],
        ['straw-general', find],
        ['water', { amount: 50 }],
      ],
      { aims: aimsOf({ carbonToNitrogen: 30 }) },
    );
    const finding = findAmounts(plan, 1);
    expect(found(finding)[0]).toBeGreaterThan(0);
    const solved = withAmounts(plan, new Map([[plan.lines[1]!.key, found(finding)[0]!]]));
    expect(plannedMix(solved).figures!.carbonToNitrogen).toBeCloseTo(30, 2);
  });

  test('two unknowns with water: food scraps and leaves of the reference (MIX-11)', () => {
    const plan = planOf(
      [
        ['food-waste-household-garbage', { amount: 100 }],
        ['leaves-loose-and-dry', find],
        ['water', find],
      ],
      { aims },
    );
    const [leaves, water] = found(findAmounts(plan, 1));
    expect(leaves).toBeCloseTo(83.33, 2);
    expect(water).toBeCloseTo(23.33, 2);
  });

  test('three unknowns fill the cage, packed, at the C:N and moisture asked', () => {
    const plan = planOf(
      [
        ['broiler-litter', find],
        ['straw-general', find],
        ['water', find],
      ],
      { aims: aimsOf({ carbonToNitrogen: 28, moisture: 0.65, volume: null }) },
    );
    const finding = findAmounts(plan, 1.386);
    expect(found(finding).every((amount) => amount > 0)).toBe(true);
    if (finding.kind !== 'found') throw new Error('not found');
    const { figures } = plannedMix(withAmounts(plan, finding.amounts));
    expect(figures!.cubicMetres).toBeCloseTo(1.386, 2);
    expect(figures!.carbonToNitrogen).toBeCloseTo(28, 1);
    expect(figures!.moistureFraction).toBeCloseTo(0.65, 3);
  });

  test('whatever litter and aims, what is found meets them', () => {
    const wanted = fc.record({
      ratio: fc.integer({ min: 18, max: 45 }),
      wet: fc.integer({ min: 45, max: 72 }),
    });
    fc.assert(
      fc.property(wanted, ({ ratio, wet }) => {
        const plan = planOf(
          [
            ['broiler-litter', { amount: 10, unit: 'bucket' }],
            ['straw-wheat', find],
            ['water', { ...find, unit: 'bucket' }],
          ],
          { aims: aimsOf({ carbonToNitrogen: ratio, moisture: wet / 100 }) },
        );
        const finding = findAmounts(plan, 1);
        if (finding.kind !== 'found') throw new Error(JSON.stringify(finding));
        const { figures } = plannedMix(withAmounts(plan, finding.amounts));
        expect(figures!.carbonToNitrogen).toBeCloseTo(ratio, 1);
        expect(figures!.moistureFraction).toBeCloseTo(wet / 100, 3);
      }),
    );
  });
});

describe('what cannot be', () => {
  const tooWet = planOf(
    [
      ['grass-clippings-loose', { amount: 10 }],
      ['leaves-loose-and-dry', find],
      ['water', find],
    ],
    { aims: { ...aims } },
  );

  test('says why, and the nearest that can be (MIX-12: water would be negative)', () => {
    const { why, compromises } = refused(findAmounts(tooWet, 1));
    expect(why).toContain('water');
    expect(compromises.length).toBeGreaterThan(0);
    for (const { amounts } of compromises)
      for (const amount of amounts.values()) expect(amount).toBeGreaterThanOrEqual(0);
  });

  test('what is offered as help does meet every aim', () => {
    const { help } = refused(findAmounts(tooWet, 1));
    expect(help.length).toBeGreaterThan(0);
    for (const { id, insteadOf, kilograms } of help) {
      const lines = tooWet.lines.map((line) =>
        line.name.toLowerCase() === insteadOf.toLowerCase() ? { ...line, feedstockId: id, name: id } : line,
      );
      const amounts = found(findAmounts({ ...tooWet, lines }, 1));
      expect(amounts.every((amount) => amount >= 0)).toBe(true);
      expect(amounts.some((amount) => Math.abs(amount - kilograms) < 1e-6 * kilograms)).toBe(true);
    }
  });

  test('asks for as many aims as amounts, and says how many there are', () => {
    const finding = findAmounts({ ...tooWet, aims: aimsOf({ moisture: 0.6 }) }, 1);
    expect(finding).toMatchObject({ kind: 'not ready' });
    expect(finding.kind === 'not ready' && finding.why).toMatch(/2 amounts to find, but 1 aim is ticked/);
  });

  test('names the ingredient whose bulk density a volume aim needs', () => {
    const plan = planOf([['coffee-grounds-spent', find]], { aims: aimsOf({ volume: 1 }) });
    const finding = findAmounts(plan, 1);
    expect(finding.kind === 'not ready' && finding.why).toMatch(/coffee.*bulk density is not known.*weigh/i);
  });

  test('an own ingredient without numbers says which are missing', () => {
    const plan = planOf([[null, { name: 'Hops', own: noFigures, find: true }]], {
      aims: aimsOf({ moisture: 0.6 }),
    });
    const finding = findAmounts(plan, 1);
    expect(finding.kind === 'not ready' && finding.why).toBe('Hops: type its moisture and nitrogen and C:N.');
  });
});
