/**
 * Replacements for characters outside the GSM alphabet that do not come apart into a letter and an accent. Common
 * practice, no source. An empty replacement drops the character.
 */
export const replacements: ReadonlyMap<string, string> = new Map([
  ...pairs('‘ ’ ‚ ‛ ′ ` ´ ʼ', "'"),
  ...pairs('“ ” „ ″ « »', '"'),
  ...pairs('‐ ‑ ‒ – — ― −', '-'),
  ...pairs('• · ●', '*'),
  ['…', '...'],
  ['\t', ' '],
  ['×', 'x'],
  ['÷', '/'],
  ['±', '+/-'],
  ['≥', '>='],
  ['≤', '<='],
  ['≈', '~'],
  ['→', '->'],
  ['←', '<-'],
  ['½', '1/2'],
  ['¼', '1/4'],
  ['¾', '3/4'],
  ['²', '2'],
  ['³', '3'],
  ['µ', 'u'],
  // The degree sign is in neither GSM table, and one of them would make every text cost more than twice as much.
  ['°', ''],
  ['º', ''],
  ['ł', 'l'],
  ['Ł', 'L'],
  ['đ', 'd'],
  ['Đ', 'D'],
  ['ð', 'd'],
  ['Ð', 'D'],
  ['þ', 'th'],
  ['Þ', 'Th'],
  ['œ', 'oe'],
  ['Œ', 'OE'],
  ['ı', 'i'],
  ['ħ', 'h'],
  ['Ħ', 'H'],
  ...bothCases(
    'абвгдезийклмнопрстуфыэіїєґ',
    'a b v g d e z i y k l m n o p r s t u f y e i yi ye g'.split(' '),
  ),
  ...bothCases('ёжхцчшщъьюя', ['yo', 'zh', 'kh', 'ts', 'ch', 'sh', 'shch', '', '', 'yu', 'ya']),
  ...bothCases(
    'αβγδεζηθικλμνξοπρσςτυφχψω',
    'a v g d e z i th i k l m n x o p r s s t y f ch ps o'.split(' '),
  ),
]);

function pairs(characters: string, replacement: string): [string, string][] {
  return characters.split(' ').map((character) => [character, replacement]);
}

function bothCases(letters: string, latin: readonly string[]): [string, string][] {
  return [...letters].flatMap((letter, index): [string, string][] => {
    const small = latin[index]!;
    const capital = small.charAt(0).toUpperCase() + small.slice(1);
    return [
      [letter.toUpperCase(), capital],
      [letter, small],
    ];
  });
}
