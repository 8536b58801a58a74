import { expect, test } from 'vitest';
import type { PileStatus } from '../../shared/rules/status.ts';
import { commitsOf, emptyStep } from './step.ts';

const status = (number: number) => ({ pileId: `pile${number}` }) as PileStatus;

test('what must be stored together goes first and once; statuses follow in small parts, none left out', () => {
  const step = emptyStep('yard');
  step.marks.push(['rules:state:pile:a', '{}']);
  step.statuses.push(...Array.from({ length: 120 }, (_, number) => status(number)));
  const parts = commitsOf(step, [['rules:cursor', '7']]);
  expect(parts.map(({ marks }) => marks.map(([name]) => name))).toEqual([
    ['rules:state:pile:a', 'rules:cursor'],
    [],
    [],
  ]);
  expect(parts.flatMap(({ statuses }) => statuses)).toEqual(step.statuses);
  expect(Math.max(...parts.map(({ statuses }) => statuses.length))).toBe(50);
});

test('a step without statuses is one part', () => {
  expect(commitsOf(emptyStep('yard'), [])).toHaveLength(1);
});
