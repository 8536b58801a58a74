import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { TypicalValue } from '../../shared/compost/mix/feedstockRow.ts';
import { feedstocks } from '../../shared/compost/mix/feedstocks.ts';
import { ingredientFromFeedstock } from '../../shared/compost/mix/ingredientFromFeedstock.ts';
import { judgeAgainst, targets } from '../../shared/compost/mix/targets.ts';

const pack = new URL('../../../shared/reference/compost-physics.md', import.meta.url);
if (!existsSync(pack)) console.log('SKIPPED feedstock table: the reference pack is not beside this checkout');

/** Cells of every row of the pack's section 2 table. */
function packRows(): string[][] {
  const text = readFileSync(pack, 'utf8');
  const section = text.slice(text.indexOf('## 2. Feedstock table'), text.indexOf('## 3. Free air space'));
  const lines = section
    .split('\n')
    .filter((line) => line.startsWith('| ') && !/^\| (feedstock|---)/.test(line));
  return lines.map((line) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

/** The numbers a printed cell holds, and those of our value printed the same way. */
const printedNumbers = (cell: string) => (cell.match(/[\d.]+/g) ?? []).map(Number);
const ourNumbers = ({ typical, low, high }: TypicalValue, factor: number) =>
  [typical, low, high]
    .filter((value) => value !== null)
    .map((value) => Number((value * factor).toPrecision(9)));

describe('feedstock table', () => {
  test.skipIf(!existsSync(pack))('is the reference pack, cell by cell', () => {
    const rows = packRows();
    expect(rows.length).toBe(66);
    expect(feedstocks.map((each) => [each.name, each.seenIn])).toEqual(rows.map((row) => [row[0], row[5]]));
    for (const [index, each] of feedstocks.entries()) {
      const row = rows[index]!;
      expect(ourNumbers(each.nitrogenFractionDry, 100), each.name).toEqual(printedNumbers(row[1]!));
      expect(ourNumbers(each.carbonToNitrogen, 1), each.name).toEqual(printedNumbers(row[2]!));
      expect(ourNumbers(each.moistureFraction, 100), each.name).toEqual(printedNumbers(row[3]!));
      expect(ourNumbers(each.bulkDensityKilogramsPerCubicMetre, 1), each.name).toEqual(
        printedNumbers(row[4]!),
      );
    }
  });

  test('has one identifier each and says which rows are only remembered', () => {
    expect(new Set(feedstocks.map((each) => each.id)).size).toBe(66);
    const status = (id: string) => feedstocks.find((each) => each.id === id)!.status;
    expect(status('apple-pomace')).toBe('seen second-hand');
    expect(status('straw-oat')).toBe('from memory (unconfirmed)');
    expect(status('swine-manure')).toBe('from memory (unconfirmed)');
  });

  test('every row gives an ingredient that can be, or says what is missing', () => {
    const corrected: string[] = [];
    for (const feedstock of feedstocks) {
      const made = ingredientFromFeedstock(feedstock);
      if (made.ingredient === null) expect(made.missing.length, feedstock.name).toBeGreaterThan(0);
      else {
        expect(made.ingredient.carbonFractionDry).toBeLessThanOrEqual(0.6);
        const { typical } = feedstock.carbonToNitrogen;
        expect(made.ingredient.carbonFractionDry / made.ingredient.nitrogenFractionDry).toBeCloseTo(
          typical!,
          9,
        );
        if (made.assumptions.some((text) => text.includes('cannot be'))) corrected.push(feedstock.id);
      }
    }
    expect(corrected).toEqual(['cranberry-filter-cake', 'newsprint', 'sawdust', 'telephone-books']);
  });

  test('measured values replace the table', () => {
    const feedstock = feedstocks.find((each) => each.id === 'hay-legume')!;
    expect(ingredientFromFeedstock(feedstock)).toEqual({ ingredient: null, missing: ['moisture'] });
    const made = ingredientFromFeedstock(feedstock, { moistureFraction: 0.15, organicFractionDry: 0.9 });
    expect(made).toMatchObject({
      ingredient: { moistureFraction: 0.15, organicFractionDry: 0.9 },
      assumptions: [],
    });
  });
});

test('a value is judged against one named source at a time', () => {
  const handbook = targets.find((each) => each.source.startsWith('NRAES-54 Table'))!;
  const words = [15, 22, 27, 35, 45].map((ratio) => judgeAgainst(handbook, ratio));
  expect(words).toEqual(['too low', 'acceptable', 'preferred', 'acceptable', 'too high']);
  const openEnded = targets.find((each) => each.property === 'pore-oxygen')!;
  expect([0.04, 0.06, 0.2].map((share) => judgeAgainst(openEnded, share))).toEqual([
    'too low',
    'acceptable',
    'preferred',
  ]);
});
