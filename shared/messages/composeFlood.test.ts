import { expect, test } from 'vitest';
import { composeFloodText } from './composeFlood.ts';
import { septetCount } from './gsm.ts';

const whats = [...Array(3).fill('core too hot'), ...Array(9).fill('probe silent'), 'drying out'];
const text = { yardName: 'Gannet Row', whats, firstName: 'Cage 2', link: 'http://yard.test/' };

test('says how many, of which kinds, where to look first and where the list is', () => {
  expect(composeFloodText(text)).toBe(
    'Gannet Row: 13 alarms in a short time, told together: 9 probe silent, 3 core too hot, 1 drying out. Look first at Cage 2: core too hot. All: http://yard.test/',
  );
});

test('of many kinds it names the most frequent, and always fits one text', () => {
  const kinds = Array.from({ length: 12 }, (_, index) => `some long kind of trouble ${index}`);
  const composed = composeFloodText({ ...text, whats: ['core too hot', 'core too hot', ...kinds] });
  expect(composed).toMatch(/2 core too hot, (1 .*, )*and others\. Look first at Cage 2/);
  expect(septetCount(composed)!).toBeLessThanOrEqual(160);
});
