import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readCosts } from './costs.ts';
import { betweenMarkers, readPage, tablesOf } from './page.ts';
import { coresOf, limitTable, loads, ratesOf, summaryTable } from './plan.ts';

it('the plans on the scale page follow from the costs on the scale page', () => {
  const page = readPage();
  for (const [name, table] of Object.entries(tablesOf(readCosts(page)))) {
    const { from, to } = betweenMarkers(page, name);
    expect(page.slice(from, to), name).toBe(table);
  }
});

it('rates and cores are the arithmetic the page says', () => {
  // By hand: 100,000 probes, a message of four readings every five minutes, two probes a pile.
  const rates = ratesOf(loads[0]!);
  expect(rates.messages).toBeCloseTo(100_000 / 300, 9);
  expect(rates.readings).toBeCloseTo(1333.333, 2);
  expect(rates.judgements).toBeCloseTo(50_000 / 60, 9);
  expect(coresOf({ rate: 1000, microseconds: 100 })).toBeCloseTo(0.2, 9);
});

it('DEVELOPERS.md says in short what the page says', () => {
  const [costs, developers] = [
    readCosts(readPage()),
    readFileSync(new URL('../../../DEVELOPERS.md', import.meta.url), 'utf8'),
  ];
  expect(developers).toContain(limitTable(costs));
  expect(developers).toContain(summaryTable(costs));
});
