import { expect, test } from 'vitest';
import { septetCount } from './gsm.ts';
import { composeStatusText, type StatusLine } from './statusText.ts';

const line = (name: string, coreCelsius: number | null, alarm: StatusLine['alarm'] = null) => ({
  ...{ name, coreCelsius, alarm },
});
const hot = { condition: 'too-hot-ceiling' as const, code: 'K7', priority: 'high' as const };

test('the worst three piles come first: by their alarm, then by their heat', () => {
  const lines = [
    line('Cage 1', 60),
    line('Cage 2', 72.4, hot),
    line('Cage 3', null, { condition: 'stalled', code: 'B4', priority: 'medium' }),
    line('Cage 4', 66),
  ];
  expect(composeStatusText('Gannet Row', lines, 'C')).toBe(
    'Gannet Row: 2 with an alarm. Cage 2 72 C core too hot K7. Cage 3 no reading stopped heating early B4. Cage 4 66 C. +1 more',
  );
});

test('with nothing wrong it says so, and how hot it is', () => {
  expect(composeStatusText('Gannet Row', [line('Cage 1', 60)], 'F')).toBe(
    'Gannet Row: no alarm. Cage 1 140 F.',
  );
});

test('is one segment with long names, and keeps the worst', () => {
  const lines = Array.from({ length: 9 }, (_, index) =>
    line(`Žofie’s “big” pile of the north ${index}`, 70, hot),
  );
  const composed = composeStatusText('Yard'.repeat(20), lines, 'C');
  expect(septetCount(composed)).toBeLessThanOrEqual(160);
  expect(composed).toContain('K7');
});
