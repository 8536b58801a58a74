import { describe, expect, test } from 'vitest';
import { feedstocks } from '../mix/feedstocks.ts';
import { cellOf, figureStatus } from './figureStatus.ts';
import { figureOf } from './figures.ts';
import { gaugesOf } from './gauges.ts';
import { gaugedNames, plannedMix } from './mixRanges.ts';
import { emptyPlan, figureNames, newLine, noFigures } from './plan.ts';
import { planOf } from './testPlan.ts';

const row = (id: string) => feedstocks.find((each) => each.id === id)!;

describe('where a number comes from', () => {
  test('a bracket in the table speaks of ranges or of one column, not of the row', () => {
    const straight = 'seen second-hand';
    const recalled = 'from memory (unconfirmed)';
    expect(figureStatus(row('corn-cobs'), 'carbonToNitrogen')).toEqual({
      typical: straight,
      range: recalled,
    });
    expect(figureStatus(row('leaves-compacted-and-moist'), 'bulkDensity')).toEqual({
      typical: recalled,
      range: recalled,
    });
    expect(figureStatus(row('leaves-compacted-and-moist'), 'carbonToNitrogen').typical).toBe(straight);
    expect(figureStatus(row('leaves-loose-and-dry'), 'nitrogenFractionDry')).toEqual({
      typical: straight,
      range: straight,
    });
    expect(figureStatus(row('leaves-loose-and-dry'), 'bulkDensity').typical).toBe(recalled);
    expect(figureStatus(row('sheep-manure'), 'moistureFraction')).toEqual({
      typical: recalled,
      range: straight,
    });
    expect(figureStatus(row('straw-oat'), 'carbonToNitrogen')).toEqual({
      typical: recalled,
      range: straight,
    });
  });

  test('every printed cell has a status and every missing one has none', () => {
    for (const feedstock of feedstocks)
      for (const name of figureNames) {
        const { typical, low } = cellOf(feedstock, name);
        const status = figureStatus(feedstock, name);
        expect(status.typical === null, `${feedstock.name} ${name}`).toBe(typical === null);
        expect(status.range === null, `${feedstock.name} ${name}`).toBe(low === null);
      }
  });

  test('what a person typed is theirs and exact; a bare range gives its middle', () => {
    const line = newLine(emptyPlan, 'wood-chips-shavings-hardwood', 'Chips');
    expect(figureOf(line, 'moistureFraction')).toMatchObject({
      value: 0.275,
      low: 0.15,
      valueFrom: 'middle of the printed range',
    });
    const own = { ...line, own: { ...noFigures, moistureFraction: 0.4 } };
    expect(figureOf(own, 'moistureFraction')).toEqual({
      value: 0.4,
      low: null,
      high: null,
      valueFrom: 'you',
      rangeFrom: null,
    });
  });
});

describe('how far a mix may be off', () => {
  const plan = planOf([
    ['broiler-litter', { amount: 5, unit: 'barrow' }],
    ['straw-general', { amount: 60 }],
    ['water', { amount: 200 }],
  ]);

  test('each range holds its value', () => {
    const { ranges } = plannedMix(plan);
    for (const name of gaugedNames) {
      const range = ranges![name]!;
      expect(range.low, name).toBeLessThan(range.value);
      expect(range.high, name).toBeGreaterThan(range.value);
    }
  });

  test('measuring an ingredient narrows the range, measuring all leaves only the packing', () => {
    const width = (name: 'carbonToNitrogen' | 'moistureFraction', of = plan) => {
      const range = plannedMix(of).ranges![name]!;
      return range.high - range.low;
    };
    const own = {
      moistureFraction: 0.37,
      nitrogenFractionDry: 0.027,
      carbonToNitrogen: 14,
      ashFractionDry: 0.3,
      bulkDensity: 513,
    };
    const [litter, straw, water] = plan.lines;
    const one = { ...plan, lines: [{ ...litter!, own }, straw!, water!] };
    expect(width('carbonToNitrogen', one)).toBeLessThan(width('carbonToNitrogen'));
    const strawOwn = {
      moistureFraction: 0.12,
      nitrogenFractionDry: 0.007,
      carbonToNitrogen: 80,
      ashFractionDry: 0.08,
      bulkDensity: 135,
    };
    const both = { ...plan, lines: [{ ...litter!, own }, { ...straw!, own: strawOwn }, water!] };
    expect(width('carbonToNitrogen', both)).toBeCloseTo(0, 9);
    expect(width('moistureFraction', both)).toBeCloseTo(0, 9);
    expect(plannedMix(both).ranges!.freeAirSpace!.high).toBeGreaterThan(
      plannedMix(both).figures!.freeAirSpace!,
    );
  });

  test('gauges of a never-turned pile aim for its own moisture, of a turned one for the handbooks', () => {
    const moistureAim = (turnEveryDays: number | null) =>
      gaugesOf({ ...plan, running: { ...plan.running, turnEveryDays } }, plannedMix(plan)).find(
        ({ name }) => name === 'moistureFraction',
      )!.target.preferred;
    expect(moistureAim(null)!.low).toBe(0.65);
    expect(moistureAim(7)).toEqual({ low: 0.5, high: 0.6 });
  });

  test('a missing bulk density leaves air and density unknown and C:N known', () => {
    const mix = plannedMix(planOf([['coffee-grounds-spent', { amount: 40 }]]));
    expect(mix.ranges!.carbonToNitrogen!.value).toBeCloseTo(20, 6);
    expect(mix.ranges!.freeAirSpace).toBeNull();
    expect(mix.figures!.cubicMetres).toBeNull();
  });

  test('water beyond the pores is told in litres instead of a negative air space', () => {
    const { figures } = plannedMix(
      planOf([
        ['straw-general', { amount: 50 }],
        ['water', { amount: 900 }],
      ]),
    );
    expect(figures!.freeAirSpace).toBe(0);
    expect(figures!.litresTooMany).toBeGreaterThan(500);
  });
});
