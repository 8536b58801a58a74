import { expect, test } from 'vitest';
import { conditionIds } from '../../shared/alarms/alarm.ts';
import { allConditions } from '../../shared/rules/allConditions.ts';
import { conditionTable } from './conditionTable.ts';

test('every condition has a row with its defaults and where they come from', () => {
  const lines = conditionTable().split('\n').slice(2);
  expect(lines).toHaveLength(allConditions.length);
  for (const line of lines) {
    const cells = line.split(' | ');
    expect(cells).toHaveLength(3);
    expect(cells[1]).toMatch(/on delay \d+ min/);
    expect(cells[2]!.length).toBeGreaterThan(15);
  }
});

test('says values that differ by method beside the methods they hold for', () => {
  const drying = conditionTable()
    .split('\n')
    .find((line) => line.includes('`drying-out-measured`'));
  expect(drying).toContain(
    'limit 60 % (cage, worm bed), 45 % (hot bin, windrow, aerated pile, leaf heap), 40 % (curing heap)',
  );
});

test('every condition of the house plan is judged', () => {
  expect(new Set(allConditions.map(({ id }) => id))).toEqual(new Set(conditionIds));
});
