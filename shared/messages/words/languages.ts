import { english } from './english.ts';
import { german } from './german.ts';
import type { MessageWords } from './messageWords.ts';

/** Languages texts are written in; the first is what a person gets who chose none. */
export const languages = ['en', 'de'] as const;
export type Language = (typeof languages)[number];

/** Each by its own name, as a list to choose from shows it. */
export const languageNames: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

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
