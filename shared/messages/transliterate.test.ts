import fc from 'fast-check';
import { expect, test } from 'vitest';
import { encodingOf } from './gsm.ts';
import { transliterate } from './transliterate.ts';

test.each([
  ['68.5 °C', '68.5 C'],
  ['Bay 3 – “north” side…', 'Bay 3 - "north" side...'],
  ['Gran’s heap', "Gran's heap"],
  ['Ærø, Århus, Müller, Niño, déjà', 'Ærø, Århus, Müller, Niño, déjà'],
  ['Façade São Łódź Kraków', 'Façade Sao Lodz Krakow'],
  ['Çelik', 'Celik'],
  ['Straße œuvre þing', 'Straße oeuvre thing'],
  ['e\u0301te\u0301', 'été'],
  ['\u00a05\u2009m²', ' 5 m2'],
  ['Компост 3', 'Kompost 3'],
  ['Щука', 'Shchuka'],
  ['Λόφος', 'Λofos'],
  ['🌱 Bay 🌱 3 🌱', 'Bay 3'],
  ['≥ 65', '>= 65'],
  ['a\tb\nc', 'a b\nc'],
  ['堆肥', ''],
])('%j becomes %j', (text, expected) => {
  expect(transliterate(text)).toBe(expected);
});

test('any text comes out in the GSM alphabet, and a GSM text as it was', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const result = transliterate(text);
      expect(encodingOf(result)).toBe('gsm');
      expect(transliterate(result)).toBe(result);
    }),
  );
});

test('a question mark is only ever the writer’s own', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'binary' }).filter((text) => !text.normalize('NFKD').includes('?')),
      (text) => {
        expect(transliterate(text)).not.toContain('?');
      },
    ),
  );
});
