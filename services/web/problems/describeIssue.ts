import type { ProblemField } from '../../../shared/api/types.ts';

/** A zod issue as the type provider hands it on: path in `instancePath`, the rest of the issue in `params`. */
export interface Issue {
  readonly keyword: string;
  readonly instancePath: string;
  readonly message?: string | undefined;
  readonly params: Readonly<Record<string, unknown>>;
}

/** Fields whose value is never said back. */
const secretFields = new Set(['password', 'currentPassword', 'newPassword', 'token', 'secret', 'key']);

/** Says of one wrong field which it is, what it holds and what is allowed. `input` is the whole body, query or path. */
export function describeIssue(issue: Issue, input: unknown): ProblemField {
  const path = issue.instancePath.split('/').filter((part) => part !== '');
  if (issue.keyword === 'unrecognized_keys') return describeUnknownField(issue, path);
  const name = path.length === 0 ? 'the request' : path.join('.');
  return { detail: `${name} is ${shown(path, input)}; allowed: ${allowed(issue)}`, pointer: pointer(path) };
}

function describeUnknownField(issue: Issue, path: readonly string[]): ProblemField {
  const keys = (issue.params.keys as string[] | undefined) ?? [];
  const names = keys.map((key) => JSON.stringify(key)).join(', ');
  return {
    detail: `${names}: no such field; allowed: the fields of this call only`,
    pointer: pointer([...path, keys[0] ?? '']),
  };
}

/** RFC 6901: `~` and `/` inside a name are escaped. */
function pointer(path: readonly string[]): string {
  return `#/${path.map((part) => part.replaceAll('~', '~0').replaceAll('/', '~1')).join('/')}`;
}

function shown(path: readonly string[], input: unknown): string {
  if (path.some((part) => secretFields.has(part))) return 'not shown here';
  let value: unknown = input;
  for (const part of path) value = (value as Record<string, unknown> | null | undefined)?.[part];
  if (value === undefined) return 'missing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}

const typeWords: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'a JSON object',
  array: 'a list',
};

function allowed(issue: Issue): string {
  const { params } = issue;
  switch (issue.keyword) {
    case 'invalid_type':
      return typeWords[String(params.expected)] ?? String(params.expected);
    case 'too_small':
      return sizeWords('at least', params.minimum, params.origin);
    case 'too_big':
      return sizeWords('at most', params.maximum, params.origin);
    case 'invalid_value':
      return (params.values as unknown[]).map((value) => JSON.stringify(value)).join(', ');
    default:
      return issue.message ?? 'something else';
  }
}

function sizeWords(bound: string, size: unknown, origin: unknown): string {
  const isOne = size === 1;
  if (origin === 'string') return `${bound} ${String(size)} ${isOne ? 'character' : 'characters'}`;
  if (origin === 'array') return `${bound} ${String(size)} ${isOne ? 'entry' : 'entries'}`;
  return `${bound} ${String(size)}`;
}
