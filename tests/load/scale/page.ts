import { readFileSync, writeFileSync } from 'node:fs';
import { type Costs, costTable } from './costs.ts';
import { limitTable, loads, planTable } from './plan.ts';

const page = new URL('README.md', import.meta.url).pathname;

export const readPage = (): string => readFileSync(page, 'utf8');

/** The tables of the page, by the name their markers bear. */
export function tablesOf(costs: Costs): Readonly<Record<string, string>> {
  return {
    costs: costTable(costs),
    limits: limitTable(costs),
    ...Object.fromEntries(loads.map((load, index) => [`plan ${index + 1}`, planTable(load, costs)])),
  };
}

/** What stands between the markers of one table. */
export function betweenMarkers(text: string, name: string): { from: number; to: number } {
  const begin = `<!-- ${name}: begin -->\n\n`;
  const from = text.indexOf(begin);
  const to = text.indexOf(`\n<!-- ${name}: end -->`);
  if (from < 0 || to < 0) throw new Error(`the scale page has no place for "${name}"`);
  return { from: from + begin.length, to };
}

/** Puts new figures, and what follows from them, in place of the old ones. */
export function writePage(costs: Costs): void {
  let text = readPage();
  for (const [name, table] of Object.entries(tablesOf(costs))) {
    const { from, to } = betweenMarkers(text, name);
    text = text.slice(0, from) + table + text.slice(to);
  }
  writeFileSync(page, text);
}
