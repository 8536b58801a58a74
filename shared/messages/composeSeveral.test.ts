import { expect, test } from 'vitest';
import { composeSeveralText } from './composeSeveral.ts';
import { septetCount } from './gsm.ts';
import { english } from './words/english.ts';
import { german } from './words/german.ts';
import { fill } from './words/messageWords.ts';

const hot = { name: 'Cage 2', what: 'core too hot', code: 'K7' };
const text = {
  yardName: 'Gannet Row',
  why: 'cap' as const,
  alarms: [
    hot,
    { ...hot, name: 'Cage 3', code: 'B4' },
    { name: 'probe 1', what: 'probe silent', code: 'C3' },
  ],
  firstAction: 'Clear the air channels with a smooth pole.',
  link: null,
  nextTime: '15:05',
};
const longestAction = 'Stop feeding, shade it, open the cover, water lightly with cool water.';

test('says how many more, of what, where to look first, and when texts go on', () => {
  expect(composeSeveralText(text)).toBe(
    'Gannet Row: and 3 more: 2 core too hot... First: Cage 2, core too hot (K7). Clear the air channels with a smooth pole. More from 15:05. See the wall.',
  );
});

test('what came in one minute is named one by one, and by kinds where they are too many', () => {
  const few = { ...text, why: 'group' as const, nextTime: null, link: 'http://y.test/' };
  expect(composeSeveralText(few)).toBe(
    'Gannet Row: 3 more: Cage 2 core too hot K7; Cage 3 core too hot B4; probe 1 probe silent C3. First Cage 2: Clear the air channels with a smooth pole.',
  );
  const many = composeSeveralText({ ...few, alarms: Array.from({ length: 12 }, () => hot) });
  expect(many).toContain('and 12 more: 12 core too hot. First: Cage 2');
});

test('in the morning it tells the night', () => {
  const morning = composeSeveralText({ ...text, why: 'morning', nextTime: null, link: 'http://y.test/' });
  expect(morning).toContain('3 from the night that could wait');
  expect(morning).toContain('Clear the air channels with a smooth pole. See the wall.');
  const bare = composeSeveralText({
    ...text,
    firstAction: '',
    why: 'morning',
    nextTime: null,
    link: 'http://y.test/',
  });
  expect(bare).toContain('All: http://y.test/');
});

test('what to do first is always there, whole, in the language of the person, and one text', () => {
  const longNames = { yardName: 'Y'.repeat(30), link: 'https://compost.gannet-row.example/' };
  const one = { name: 'A long cage name 18', what: 'stopped heating early', code: 'K74' };
  for (const why of ['morning', 'cap', 'group'] as const)
    for (const count of [1, 2, 3, 40]) {
      const alarms = Array.from({ length: count }, () => one);
      const about = { ...text, ...longNames, why, alarms, firstAction: longestAction };
      expect(composeSeveralText(about)).toContain(longestAction);
      const inGerman = composeSeveralText(about, german);
      expect(inGerman).toContain(german.phrases[longestAction]);
      for (const said of [composeSeveralText(about), inGerman]) {
        expect(septetCount(said)).toBeLessThanOrEqual(160);
        expect(said).toContain('K74');
      }
    }
});

test('however many kinds and long names, it is one text that keeps the number', () => {
  const alarms = Array.from({ length: 40 }, (_, index) => ({
    ...hot,
    name: 'N'.repeat(60),
    what: `kind ${index}`,
  }));
  const composed = composeSeveralText({ ...text, alarms, yardName: 'Y'.repeat(80) });
  expect(septetCount(composed)).toBeLessThanOrEqual(160);
  expect(composed).toContain('40 more');
});

test('every template of the words is plain GSM text, and one with a missing value is refused', () => {
  const templates = (words: object): string[] =>
    Object.values(words).flatMap((one) => (typeof one === 'string' ? [one] : templates(one)));
  for (const template of templates(english)) expect(septetCount(template), template).not.toBeNull();
  expect(() => fill('{code} seen', {})).toThrow('{code}');
});
