import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitTemplate } from './fitTemplate.ts';
import { septetCount } from './gsm.ts';
import { namesIn, optionalNames, parseTemplate, renderTemplate } from './template.ts';

const alarm = '[{place}, ]{name}: {what}[ {limit}]. {action}';

describe('a template', () => {
  test('is filled in; a part in brackets goes when there is nothing to fill in', () => {
    const parts = parseTemplate(alarm);
    const values = { place: 'bay 3', name: 'Cage 2', what: 'too hot', limit: '', action: 'Wet it.' };
    expect(renderTemplate(parts, values)).toBe('bay 3, Cage 2: too hot. Wet it.');
    expect(renderTemplate(parts, { ...values, place: '' })).toBe('Cage 2: too hot. Wet it.');
    expect(namesIn(parts)).toEqual(['place', 'name', 'what', 'limit', 'action']);
    expect(optionalNames(parts)).toEqual(new Set(['place', 'limit']));
  });

  test('one that stands in brackets and outside is not left out', () => {
    expect(optionalNames(parseTemplate('{a}[ ({a}, {b})]'))).toEqual(new Set(['b']));
  });

  test.each([
    ['a [b', '[ with its ]'],
    ['a b]', '] after its ['],
    ['[a [{b}] c]', 'beside, not in each other'],
    ['[only words]', 'something to fill in'],
    ['{name', '{ and } around one name'],
    ['{two words}', '{ and } around one name'],
  ])('%s is refused, and what is allowed is said', (template, why) => {
    expect(() => parseTemplate(template)).toThrow(why);
  });

  test('made to fit it gives up what it is told to, in that order, and says so', () => {
    const values = { place: ['bay 3'], name: ['Cage 2'], what: ['too hot'], limit: ['(limit 71 C)'] };
    const fitted = (action: number) =>
      fitTemplate(parseTemplate(alarm), { ...values, action: ['x'.repeat(action)] }, ['place', 'limit']);
    expect([110, 124, 130, 140].map((length) => fitted(length).leftOut)).toEqual([
      [],
      ['place'],
      ['place'],
      ['place', 'limit'],
    ]);
    expect(fitted(140).isCut).toBe(false);
    expect(fitted(150).isCut).toBe(true);
    expect(fitted(124).whole).toContain('bay 3, ');
  });

  test('is one segment of the GSM alphabet whatever is filled in', () => {
    const words = fc.string({ unit: 'grapheme', maxLength: 200 });
    fc.assert(
      fc.property(words, words, words, (place, name, action) => {
        const values = { place: [place], name: [name, name.slice(0, 8)], what: ['hot'], action: [action] };
        const { text } = fitTemplate(parseTemplate(alarm), values, ['place', 'name']);
        expect(septetCount(text)).toBeLessThanOrEqual(160);
      }),
    );
  });
});
