import { describe, expect, test } from 'vitest';
import { airLayoutOf } from './airLayout.ts';
import { buildSheetOf } from './buildSheet.ts';
import { containerOf } from './container.ts';
import { plannedMix } from './mixRanges.ts';
import { emptyPlan, type Plan } from './plan.ts';
import { readPlan } from './planSchema.ts';
import { recipeNote } from './recipeNote.ts';
import { searchFeedstocks } from './searchFeedstocks.ts';
import { planOf } from './testPlan.ts';

const plan = planOf(
  [
    ['cattle-manure', { amount: 200, name: 'Cow muck' }],
    ['leaves-loose-and-dry', { amount: 8, unit: 'barrow', name: 'Leaves' }],
    ['coffee-grounds-spent', { amount: 30, name: 'Coffee' }],
    ['water', { amount: 60, unit: 'litre' }],
  ],
  { name: 'Autumn cage' },
);

function sheetOf(of: Plan) {
  const container = containerOf(of.container);
  const air = airLayoutOf(of.container, container, container.height);
  return { sheet: buildSheetOf(of, container, plannedMix(of), air)!, air, mix: plannedMix(of) };
}

describe('the sheet to build from', () => {
  test('layers add up to the whole, in kg, buckets and water', () => {
    const { sheet, mix } = sheetOf(plan);
    const [muck, leaves] = sheet.lines;
    expect(muck!.kilogramsPerLayer * sheet.layers).toBeCloseTo(200, 9);
    expect(leaves!.litres).toBeCloseTo(640, 6);
    expect(leaves!.buckets).toBeCloseTo(640 / 12, 6);
    expect(sheet.litresPerLayer * sheet.layers).toBeCloseTo(60, 9);
    const carried = sheet.lines.reduce((sum, { kilograms }) => sum + kilograms, sheet.litresOfWater);
    expect(carried).toBeCloseTo(mix.figures!.wetKilograms, 9);
  });

  test('a bucket nobody weighed is not guessed', () => {
    const coffee = sheetOf(plan).sheet.lines[2]!;
    expect(coffee).toMatchObject({ buckets: null, kilogramsPerBucket: null, bucketsPerLayer: null });
  });

  test('pipes stand out of the pile and cloth goes round it', () => {
    const { channels } = sheetOf(plan).sheet;
    expect(channels!.pipeLength).toBeCloseTo(1.5, 9);
    expect(channels!.clothLength).toBeCloseTo(3.71 + 0.15, 9);
    const boards = sheetOf({ ...plan, container: { ...plan.container, form: 'box', wallPermeable: false } });
    expect(boards.sheet.channels!.clothLength).toBeNull();
  });

  test('the journal note has the recipe, says what was not measured, and fits the journal', () => {
    const { sheet, air, mix } = sheetOf(plan);
    const note = recipeNote(plan.name, sheet, mix.figures!, air);
    expect(note).toContain('Built from the plan "Autumn cage".');
    expect(note).toContain('Cow muck 200 kg');
    expect(note).toContain('By plan (not measured): C:N');
    expect(note).toMatch(/Core probe: tip 0\.60 m below the top/);
    const many = { ...sheet, lines: Array.from({ length: 200 }, () => sheet.lines[0]!) };
    expect(recipeNote('x', many, mix.figures!, air)).toHaveLength(2000);
  });
});

describe('plans that were kept', () => {
  test('come back as they were', () => {
    expect(readPlan(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
    expect(readPlan(JSON.parse(JSON.stringify(emptyPlan)))).toEqual(emptyPlan);
  });

  test('are left out when something happened to them', () => {
    expect(readPlan(null)).toBeNull();
    expect(readPlan({ ...plan, container: { ...plan.container, height: -1 } })).toBeNull();
    expect(readPlan({ ...plan, lines: [{ key: 'l1' }] })).toBeNull();
  });
});

test('the table is found by its own words and by what people say', () => {
  const ids = (typed: string) => searchFeedstocks(typed).map(({ id }) => id);
  expect(ids('chicken')).toContain('broiler-litter');
  expect(ids('leaves')).toEqual(ids('leaf'));
  expect(ids('leaf')).toContain('leaves-loose-and-dry');
  expect(ids('wood chips')).toContain('wood-chips-shavings-hardwood');
  expect(ids('unobtainium')).toEqual([]);
  expect(ids('  ')).toEqual([]);
});
