import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { freeCode } from '../alarms/code.ts';
import { type Answer, parseAnswer } from './answer.ts';

const cases: readonly (readonly [string, Answer])[] = [
  ['seen K7', { kind: 'seen', code: 'K7' }],
  ['SEEN k7.', { kind: 'seen', code: 'K7' }],
  ['Seen K7, thanks!', { kind: 'seen', code: 'K7' }],
  ['k7', { kind: 'seen', code: 'K7' }],
  ['K7 seen', { kind: 'seen', code: 'K7' }],
  ['ok K 7', { kind: 'seen', code: 'K7' }],
  ['seen', { kind: 'seen', code: null }],
  ['stop K7 4h', { kind: 'stop', code: 'K7', minutes: 240 }],
  ['Stop K7 for 4 hours', { kind: 'stop', code: 'K7', minutes: 240 }],
  ['stop K7 90 min', { kind: 'stop', code: 'K7', minutes: 90 }],
  ['stop k7 2d', { kind: 'stop', code: 'K7', minutes: 2880 }],
  ['later K7 8', { kind: 'stop', code: 'K7', minutes: 480 }],
  ['stop K7', { kind: 'stop', code: 'K7', minutes: null }],
  ['STOP', { kind: 'stop', code: null, minutes: null }],
  ['done K7 watered', { kind: 'done', code: 'K7', deed: 'watered' }],
  ['Turned K7', { kind: 'done', code: 'K7', deed: 'turned' }],
  ['K7 turned it today', { kind: 'done', code: 'K7', deed: 'turned' }],
  ['done K7', { kind: 'done', code: 'K7', deed: null }],
  [' Status? ', { kind: 'status' }],
  ['?', { kind: 'help' }],
  ['HELP', { kind: 'help' }],
  ['', { kind: 'unknown' }],
  ['not seen K7', { kind: 'unknown' }],
  ["K7 didn't water", { kind: 'unknown' }],
  ['I have seen K7', { kind: 'unknown' }],
  ['constructor K7', { kind: 'unknown' }],
  ['who is this', { kind: 'unknown' }],
  [`seen K7 ${'x'.repeat(300)}`, { kind: 'unknown' }],
];

describe('a text that comes in', () => {
  test.each(cases)('%s', (text, expected) => expect(parseAnswer(text)).toEqual(expected));

  const codes = fc.string().map((seed) => freeCode(new Set(), seed));
  const spaces = fc.constantFrom(' ', '  ', ', ', ' - ', '\n', '. ');
  const anyCase = (text: string) =>
    fc
      .array(fc.boolean(), { minLength: text.length, maxLength: text.length })
      .map((ups) => [...text].map((one, at) => (ups[at] ? one.toUpperCase() : one)).join(''));

  test('is understood with any code we give, in any case and with any usual signs between', () => {
    const spoken = fc
      .record({ code: codes, hours: fc.integer({ min: 1, max: 99 }), space: spaces })
      .chain(({ code, hours, space }) =>
        anyCase(['stop', code.toLowerCase(), `${hours}h`].join(space)).map((text) => ({ code, hours, text })),
      );
    fc.assert(
      fc.property(spoken, ({ code, hours, text }) => {
        expect(parseAnswer(text)).toEqual({ kind: 'stop', code, minutes: hours * 60 });
      }),
    );
  });

  test('whatever it is, is read without fault, and a code is only ever one that could be ours', () => {
    const pieces = fc.constantFrom(
      'seen',
      'stop',
      'done',
      'K7',
      'k',
      '7',
      '4h',
      'not',
      'status',
      '🔥',
      '0',
      'O0',
    );
    const soup = fc.array(fc.oneof(pieces, fc.string()), { maxLength: 8 }).map((parts) => parts.join(' '));
    fc.assert(
      fc.property(fc.oneof(soup, fc.string({ unit: 'binary' })), (text) => {
        const answer = parseAnswer(text);
        if ('code' in answer && answer.code !== null)
          expect(answer.code).toMatch(/^[A-HJ-NPQRT-Y][346789]{1,3}$/);
        if (answer.kind === 'stop' && answer.minutes !== null)
          expect(Number.isInteger(answer.minutes)).toBe(true);
      }),
    );
  });

  test('that denies anything does nothing', () => {
    const said = cases.map(([text]) => text).filter((text) => text.length < 100);
    for (const text of said) expect(parseAnswer(`${text} not`).kind, text).toBe('unknown');
  });
});
