import { septetsByCharacter } from './gsmAlphabet.ts';
import { replacements } from './transliterationTable.ts';

/**
 * The nearest text in the GSM alphabet: what is in it stays, accents go where the accented letter is not in it, quotes
 * and dashes become plain, the degree sign goes. A character with no nearest form (an emoji, an ideograph) is dropped
 * rather than shown as "?", and the spaces around it become one; the result may be empty.
 */
export function transliterate(text: string): string {
  const composed = text.normalize('NFC');
  let result = '';
  let hasDropped = false;
  for (const character of composed) {
    const replaced = replacementOf(character);
    hasDropped ||= replaced === '' && replacements.get(character) === undefined;
    result += replaced;
  }
  return hasDropped ? result.replace(/ {2,}/g, ' ').trim() : result;
}

function replacementOf(character: string): string {
  if (septetsByCharacter.has(character)) return character;
  const known = replacements.get(character);
  if (known !== undefined) return known;
  if (/\p{Zs}/u.test(character)) return ' ';
  const base = [...character.normalize('NFKD')].filter((part) => !/\p{M}/u.test(part));
  return base.map((part) => (septetsByCharacter.has(part) ? part : (replacements.get(part) ?? ''))).join('');
}
