import type { JournalKind } from '../yard/journal.ts';

/** What somebody's text asks for. `code` is null where none was given. */
export type Answer =
  | { readonly kind: 'seen'; readonly code: string | null }
  | { readonly kind: 'stop'; readonly code: string | null; readonly minutes: number | null }
  | { readonly kind: 'done'; readonly code: string | null; readonly deed: JournalKind | null }
  | { readonly kind: 'status' }
  | { readonly kind: 'help' }
  | { readonly kind: 'unknown' };

type Verb = Exclude<Answer['kind'], 'unknown'>;

const verbs: Readonly<Record<string, Verb>> = {
  ...words('seen', ['seen', 'saw', 'ok', 'okay', 'ack', 'acknowledge', 'acknowledged']),
  ...words('stop', ['stop', 'quiet', 'later', 'shelve', 'pause']),
  ...words('done', ['done', 'did']),
  ...words('status', ['status', 'state']),
  ...words('help', ['help', 'commands']),
};

const deeds: Readonly<Record<string, JournalKind>> = {
  ...words('watered', ['watered', 'water', 'wetted', 'wet']),
  ...words('turned', ['turned', 'turn']),
  ...words('opened', ['opened', 'open']),
  ...words('covered', ['covered', 'cover']),
  ...words('uncovered', ['uncovered', 'uncover']),
  ...words('added', ['added', 'add']),
  ...words('moved', ['moved', 'move']),
};

/** "not seen", "did not water": whoever writes this means something we would get wrong. */
const negations = new Set(['not', 'no', 'never', 'cannot', 'cant', 'dont', 'didnt', 'wont', 'nothing']);

/** One letter and digits of the alphabet codes are made of (`shared/alarms/code.ts`). */
const codeShape = /^[a-hj-npqrt-y][346789]{1,3}$/;
const letterShape = /^[a-hj-npqrt-y]$/;
const digitsShape = /^[346789]{1,3}$/;
const durationShape = /^(\d{1,4})(m|min|mins|minutes?|h|hrs?|hours?|d|days?)?$/;

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
  const deed = Object.hasOwn(deeds, word) ? deeds[word]! : null;
  if (deed !== null) return { kind: 'done', code, deed };
  const verb = Object.hasOwn(verbs, word) ? verbs[word]! : null;
  return verb === null ? { kind: 'unknown' } : answerOf(verb, code, tokens);
}

function answerOf(verb: Verb, code: string | null, tokens: readonly string[]): Answer {
  switch (verb) {
    case 'seen':
      return { kind: 'seen', code };
    case 'stop':
      return { kind: 'stop', code, minutes: minutesIn(tokens) };
    case 'done': {
      const deed = tokens.find((token) => Object.hasOwn(deeds, token));
      return { kind: 'done', code, deed: deed === undefined ? null : deeds[deed]! };
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
  return /^\d{1,4}$/.test(before) && !/^\d/.test(token) && durationShape.test(before + token);
}

/** Minutes of the first duration; a bare number is hours. Null when none is said. */
function minutesIn(tokens: readonly string[]): number | null {
  for (const token of tokens) {
    const match = durationShape.exec(token);
    if (match === null) continue;
    const unit = match[2]?.charAt(0) ?? 'h';
    return Number(match[1]) * (unit === 'm' ? 1 : unit === 'd' ? 1440 : 60);
  }
  return null;
}

function words<Meaning>(meaning: Meaning, spellings: readonly string[]): Record<string, Meaning> {
  return Object.fromEntries(spellings.map((spelling) => [spelling, meaning]));
}
