import { parseSync } from 'vite';

/** Something a person would see or hear that stands in a component instead of a words file. */
export interface InlineWord {
  readonly line: number;
  readonly text: string;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [field: string]: unknown;
}

/** How far a string must look like words to count, by where it stands. */
type Where = 'said' | 'quiet' | 'anywhere';

/** Attributes of elements and of our own components that are seen or heard. */
const saidAttributes = new Set([
  ...['label', 'title', 'alt', 'placeholder', 'legend', 'hint', 'heading', 'question', 'button', 'waiting'],
  ...['caption', 'summary', 'lead', 'text', 'what', 'why', 'words', 'unit'],
  ...['aria-label', 'aria-description', 'aria-valuetext', 'aria-roledescription', 'aria-placeholder'],
]);

/** Attributes nobody reads, however much their values look like words. */
const quietAttributes = new Set(['class', 'className', 'd', 'style', 'points', 'transform', 'viewBox']);

/** Fields of objects that end up in front of people: labels of lines, details of refusals. */
const saidFields = new Set(['label', 'hint', 'legend', 'heading', 'question', 'placeholder', 'detail']);

/** Symbols that are the same in every language. Other units stand in `measures` of common/words.ts. */
const symbols: ReadonlySet<string> = new Set(['C', 'F']);

/**
 * What of a component's source belongs into a words file: text between tags, strings in attributes and fields that are
 * seen or heard, and any other string that reads like a phrase or glues a unit to a value.
 */
export function inlineWords(fileName: string, code: string): InlineWord[] {
  const { program, errors } = parseSync(fileName, code, { astType: 'ts' });
  if (errors.length > 0) throw new Error(`${fileName}: ${errors[0]!.message}`);
  const found: InlineWord[] = [];
  const lineOf = (at: number) => code.slice(0, at).split('\n').length;
  const look = (node: Node, where: Where) => {
    const text = stringOf(node);
    if (text !== null && counts(text, where))
      found.push({ line: lineOf(node.start + indentOf(text)), text: text.trim() });
    for (const [child, childWhere] of childrenOf(node, where)) look(child, childWhere);
  };
  look(program as unknown as Node, 'anywhere');
  return found;
}

/** Text between tags begins with the line break before it. */
const indentOf = (text: string) => text.length - text.trimStart().length;

/** Whether a file holds words and nothing that runs: names alone do not make a words file. */
export function isWordsFile(fileName: string, code: string): boolean {
  if (!/(^|\/)(words|\w+Words)\.ts$/.test(fileName)) return false;
  const { body } = parseSync(fileName, code, { astType: 'ts' }).program as unknown as { body: Node[] };
  return body.every((node) => node.type !== 'ImportDeclaration' || node.importKind === 'type');
}

function stringOf(node: Node): string | null {
  if (node.type === 'JSXText') return node.value as string;
  if (node.type === 'TemplateElement') return (node.value as { cooked: string }).cooked;
  return node.type === 'Literal' && typeof node.value === 'string' ? node.value : null;
}

function counts(text: string, where: Where): boolean {
  if (where === 'quiet' || !/\p{L}/u.test(text)) return false;
  if (where === 'said') return !symbols.has(text.trim());
  if (isPath(text)) return false;
  // A phrase, a word with a space where a value is put in ("built ", " ago", " kg"), or one that begins like a title.
  return /\p{L}[,.;:]? +\p{L}|\p{L}[,.;:]? $|^[,.;:]? \p{L}|^\p{Lu}\p{Ll}{2}/u.test(text);
}

/** Drawn, not said: "M14 92 H86". */
const isPath = (text: string) => /^[MLHVCSQTAZ\d\s.,-]+$/.test(text);

function childrenOf(node: Node, where: Where): [Node, Where][] {
  if (/^TS(?!AsExpression|NonNull|Satisfies)/.test(node.type)) return [];
  if (/^(Import|Export(All|Named))/.test(node.type) && node.source != null) return [];
  return Object.entries(node).flatMap(([field, value]) =>
    (Array.isArray(value) ? value : [value])
      .filter(isNode)
      .map((child): [Node, Where] => [child, whereOf(node, field, where)]),
  );
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

/** What becomes of a string's place on the way down: a tested or looked-up string is not shown, a chosen one is. */
function whereOf(node: Node, field: string, where: Where): Where {
  switch (node.type) {
    case 'JSXText':
      return 'said';
    case 'JSXElement':
    case 'JSXFragment':
      return field === 'children' ? 'said' : 'anywhere';
    case 'JSXAttribute':
      return attributeWhere(node);
    case 'Property':
      if (field === 'key') return 'quiet';
      return saidFields.has((node.key as Node).name as string) ? 'said' : within(where);
    case 'ConditionalExpression':
      return field === 'test' ? within(where) : where;
    case 'BinaryExpression':
      // What is compared or looked for is a name.
      return node.operator === '+' ? where : 'quiet';
    case 'MemberExpression':
      return field === 'property' ? 'quiet' : within(where);
    case 'CallExpression':
    case 'NewExpression':
    case 'ArrowFunctionExpression':
      return field === 'body' ? where : within(where);
    default:
      return where;
  }
}

const within = (where: Where): Where => (where === 'said' ? 'anywhere' : where);

function attributeWhere(node: Node): Where {
  const { name, namespace } = node.name as Node & { namespace?: Node };
  const full = namespace ? `${namespace.name}:${(name as Node).name}` : (name as string);
  if (quietAttributes.has(full)) return 'quiet';
  return saidAttributes.has(full) ? 'said' : 'anywhere';
}
