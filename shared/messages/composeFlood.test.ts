import { expect, test } from 'vitest';
import { composeFloodText } from './composeFlood.ts';
import { septetCount } from './gsm.ts';
import { german } from './words/german.ts';

const whats = [...Array(3).fill('core too hot'), ...Array(9).fill('probe silent'), 'drying out'];
const text = {
  yardName: 'Gannet Row',
  whats,
  firstName: 'Cage 2',
  firstAction: '',
  link: 'http://yard.test/',
};
const firstAction = 'Stop feeding, shade it, open the cover, water lightly with cool water.';

test('says how many, of which kinds, where to look first and where the list is', () => {
  expect(composeFloodText(text)).toBe(
    'Gannet Row: 13 alarms in a short time, told together: 9 probe silent, 3 core too hot, 1 drying out. Look first at Cage 2: core too hot. All: http://yard.test/',
  );
});

test('of many kinds it names the most frequent, and always fits one text', () => {
  const kinds = Array.from({ length: 12 }, (_, index) => `some long kind of trouble ${index}`);
  const composed = composeFloodText({ ...text, whats: ['core too hot', 'core too hot', ...kinds] });
  expect(composed).toMatch(/2 core too hot, (1 .*, )*and others\. First Cage 2/);
  expect(septetCount(composed)!).toBeLessThanOrEqual(160);
});

test('what to do first is said whole, and in the language of the person', () => {
  const long = { ...text, yardName: 'Y'.repeat(30), firstName: 'Long name of a cage nineteen', firstAction };
  const composed = composeFloodText(long);
  expect(composed).toContain(firstAction);
  expect(composed).toContain('13 alarms');
  expect(composeFloodText(long, german)).toContain(german.phrases[firstAction]);
  expect(septetCount(composeFloodText(long, german))).toBeLessThanOrEqual(160);
});
