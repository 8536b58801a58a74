import type { JournalKind } from '../yard/journal.ts';
import { catalogues } from './words/languages.ts';

/** What somebody's text asks for. `code` is null where none was given. */
export type Answer =
  | { readonly kind: 'seen'; readonly code: string | null }
  | { readonly kind: 'stop'; readonly code: string | null; readonly minutes: number | null }
  | { readonly kind: 'done'; readonly code: string | null; readonly deed: JournalKind | null }
  | { readonly kind: 'status' }
  | { readonly kind: 'help' }
  | { readonly kind: 'unknown' };

type Verb = Exclude<Answer['kind'], 'unknown'>;

const vocabularies = Object.values(catalogues).map(({ replies }) => replies);
const verbs = meanings<Verb>(vocabularies.map((replies) => replies.verbs));
const deeds = meanings<JournalKind>(vocabularies.map((replies) => replies.deeds));
const negations = new Set(vocabularies.flatMap((replies) => replies.negations));
const units = meanings<'m' | 'h' | 'd'>(vocabularies.map((replies) => replies.units));

/** One letter and digits of the alphabet codes are made of (`shared/alarms/code.ts`). */
const codeShape = /^[a-hj-npqrt-y][346789]{1,3}$/;
const letterShape = /^[a-hj-npqrt-y]$/;
const digitsShape = /^[346789]{1,3}$/;
const durationShape = /^(\d{1,4})(\p{L}*)$/u;

/** A text longer than this is a letter, not an answer. */
const longestAnswer = 200;

/**
 * Reads a short text: a word of ours first, or the code and then the word; any case, any punctuation, what follows is
 * let pass ("Seen K7, thanks"). A code alone means seen. Anything in doubt is `unknown`: nothing is done on a guess.
 */
export function parseAnswer(text: string): Answer {
  if (text.length > longestAnswer) return { kind: 'unknown' };
  const tokens = tokensOf(text);
  if (tokens.some((token) => negations.has(token))) return { kind: 'unknown' };
  const [first, second] = tokens;
  if (first === undefined) return { kind: text.trim() === '?' ? 'help' : 'unknown' };
  const code = tokens.find((token) => codeShape.test(token))?.toUpperCase() ?? null;
  const isCodeFirst = codeShape.test(first);
  if (isCodeFirst && second === undefined) return { kind: 'seen', code };
  const word = isCodeFirst ? second! : first;
  const deed = deeds.get(word);
  if (deed !== undefined) return { kind: 'done', code, deed };
  const verb = verbs.get(word);
  return verb === undefined ? { kind: 'unknown' } : answerOf(verb, code, tokens);
}

function answerOf(verb: Verb, code: string | null, tokens: readonly string[]): Answer {
  switch (verb) {
    case 'seen':
      return { kind: 'seen', code };
    case 'stop':
      return { kind: 'stop', code, minutes: minutesIn(tokens) };
    case 'done': {
      const deed = tokens.find((token) => deeds.has(token));
      return { kind: 'done', code, deed: deed === undefined ? null : deeds.get(deed)! };
    }
    default:
      return { kind: verb };
  }
}

/** Words and numbers, lower case; "K 7" and "4 h" written apart are joined. */
function tokensOf(text: string): string[] {
  const plain = text.normalize('NFKC').toLowerCase().replaceAll(/['’]/g, '');
  const raw = plain.match(/[\p{L}\p{N}]+/gu) ?? [];
  const tokens: string[] = [];
  for (const token of raw) {
    const before = tokens.at(-1);
    if (before !== undefined && belongsTo(before, token)) tokens[tokens.length - 1] = before + token;
    else tokens.push(token);
  }
  return tokens;
}

function belongsTo(before: string, token: string): boolean {
  if (letterShape.test(before) && digitsShape.test(token)) return true;
  return /^\d{1,4}$/.test(before) && units.has(token);
}

const minutesOfUnit = { m: 1, h: 60, d: 1440 } as const;

/** Minutes of the first duration; a bare number is hours. Null when none is said. */
function minutesIn(tokens: readonly string[]): number | null {
  for (const token of tokens) {
    const [, count, word = ''] = durationShape.exec(token) ?? [];
    const unit = word === '' ? 'h' : units.get(word);
    if (count !== undefined && unit !== undefined) return Number(count) * minutesOfUnit[unit];
  }
  return null;
}

/** Each spelling with what it means, over all languages. */
function meanings<Meaning extends string>(
  lists: readonly Readonly<Partial<Record<Meaning, readonly string[]>>>[],
): ReadonlyMap<string, Meaning> {
  const pairs = lists.flatMap((list) =>
    (Object.entries(list) as [Meaning, readonly string[]][]).flatMap(([meaning, spellings]) =>
      spellings.map((spelling) => [spelling, meaning] as const),
    ),
  );
  return new Map(pairs);
}
