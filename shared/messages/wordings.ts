import { catalogues, type Language } from './words/languages.ts';
import type { MessageWords } from './words/messageWords.ts';

/** One text that a yard may word for itself. */
export interface WordingSpec {
  /** What it may fill in; those that are not needed may stand in brackets where `hasGroups`. */
  readonly allowed: readonly string[];
  /** What must be said, always. */
  readonly needed: readonly string[];
  /** Whether parts in [brackets] are known here. */
  readonly hasGroups: boolean;
}

const alarmNames = ['opening', 'place', 'name', 'what', 'value', 'limit', 'lasted', 'action', 'answer'];
const plain = (allowed: readonly string[], needed = allowed): WordingSpec => ({
  ...{ allowed, needed, hasGroups: false },
});

/** Texts a yard may word for itself, by their place among the words. */
export const wordingSpecs = {
  'alarm.text': { allowed: alarmNames, needed: ['name', 'what', 'action', 'answer'], hasGroups: true },
  'alarm.nextPerson': plain(['names']),
  'alarm.nobodyAnswers': plain(['count']),
  'milestone.text': {
    ...{ allowed: ['place', 'name', 'title', 'next'], needed: ['name', 'title', 'next'], hasGroups: true },
  },
  'several.minute': plain(['yard', 'count'], ['count']),
  'several.more': plain(['yard', 'count', 'kinds'], ['count', 'kinds']),
  'several.morning': plain(['yard', 'count', 'kinds'], ['count', 'kinds']),
  'watch.allWell': plain(['yard', 'piles', 'hottest'], []),
  'watch.notWell': plain(['yard', 'count', 'name', 'what', 'code'], ['name', 'what', 'code']),
  'watch.wasAway': plain(['yard', 'from', 'to', 'duration'], ['from', 'to']),
  'undelivered.owner': plain(['yard', 'name', 'address', 'detail'], ['name', 'detail']),
  'digest.counts': plain(['yard', 'texts', 'activations'], ['texts', 'activations']),
} as const satisfies Readonly<Record<string, WordingSpec>>;
export type WordingKey = keyof typeof wordingSpecs;
export const wordingKeys = Object.keys(wordingSpecs) as WordingKey[];

/** Longest template that is stored; what is sent fits one SMS however long it is. */
export const longestWording = 400;

/** What a yard says in its own words, by language. `wordingOverrides.ts` checks what comes from outside. */
export type WordingOverrides = Readonly<
  Partial<Record<Language, Readonly<Partial<Record<WordingKey, string>>>>>
>;

/** All words of a language as a yard says them. */
export type Wordings = (language: Language) => MessageWords;

/** The yard's words in place of ours. Each language is put together once. */
export function wordingsOf(overrides: WordingOverrides): Wordings {
  const made = new Map<Language, MessageWords>();
  return (language) => {
    const known = made.get(language);
    if (known !== undefined) return known;
    const words = withOwn(catalogues[language], overrides[language] ?? {});
    made.set(language, words);
    return words;
  };
}

/** What holds where a yard has said nothing. */
export const builtInWordings: Wordings = wordingsOf({});

/** The template a yard's text is made of. */
export function wordingIn(words: MessageWords, key: WordingKey): string {
  const [group, name] = key.split('.') as [keyof MessageWords, string];
  return (words[group] as Readonly<Record<string, string>>)[name]!;
}

function withOwn(words: MessageWords, own: Readonly<Partial<Record<WordingKey, string>>>): MessageWords {
  const result: Record<string, unknown> = { ...words };
  for (const [key, template] of Object.entries(own)) {
    const [group, name] = key.split('.') as [string, string];
    result[group] = { ...(result[group] as object), [name]: template };
  }
  return result as unknown as MessageWords;
}
