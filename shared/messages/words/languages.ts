import { english } from './english.ts';
import { german } from './german.ts';
import type { Language } from './languageNames.ts';
import type { MessageWords } from './messageWords.ts';

export { type Language, languageNames, languages } from './languageNames.ts';

export const catalogues: Readonly<Record<Language, MessageWords>> = { en: english, de: german };

/** A sentence of a condition or advice in the words' language; one that has no translation stays English. */
export function phrase({ phrases }: Pick<MessageWords, 'phrases'>, sentence: string): string {
  const exact = phrases[sentence];
  if (exact !== undefined) return exact;
  const numbers = sentence.match(/\d+/g) ?? [];
  const translated = phrases[sentence.replaceAll(/\d+/g, '#')];
  if (translated === undefined) return sentence;
  return translated.replaceAll('#', () => numbers.shift() ?? '');
}
