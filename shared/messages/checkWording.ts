import { type FittedTemplate, fitTemplate } from './fitTemplate.ts';
import { encodingOf, partCount, smsLimits, unitCount } from './gsm.ts';
import { namesIn, optionalNames, parseTemplate, TemplateError, type TemplatePart } from './template.ts';
import { transliterate } from './transliterate.ts';
import type { WordingExample } from './wordingExamples.ts';
import { longestWording, type WordingKey, type WordingSpec, wordingSpecs } from './wordings.ts';

/** How long a text is, and what it would cost to send it as it stands. */
export interface TextLength {
  readonly characters: number;
  /** In the alphabet it travels in: a character may count two. */
  readonly units: number;
  readonly encoding: 'gsm' | 'ucs2';
  readonly parts: number;
}

/** A template filled in with one example. */
export interface WordingPreview extends FittedTemplate {
  /** Before anything was shortened, left out or turned into plain letters. */
  readonly before: TextLength;
  readonly after: TextLength;
}

export interface CheckedWording {
  /** What must be put right before it can be saved; each names what is wrong and what is allowed. */
  readonly problems: readonly string[];
  /** Empty where the template cannot be read. */
  readonly previews: readonly WordingPreview[];
}

/** Looks whether a template can be a yard's own wording of a text, and what comes out of it. */
export function checkWording(
  key: WordingKey,
  template: string,
  examples: readonly WordingExample[],
): CheckedWording {
  const spec: WordingSpec = wordingSpecs[key];
  const [parts, unreadable] = read(template);
  if (parts === null) return { problems: [unreadable], previews: [] };
  const problems = [...emptyOrLong(template), ...lettersLost(template), ...wrongNames(parts, spec)];
  if (problems.length > 0) return { problems, previews: [] };
  const previews = examples.map((example) => preview(parts, example));
  const cut = previews.find(({ isCut }) => isCut);
  return { problems: cut === undefined ? [] : [tooLong(cut)], previews };
}

/** Length as the editor shows it. */
export function lengthOf(text: string): TextLength {
  const [characters, units] = [[...text].length, unitCount(text)];
  return { characters, units, encoding: encodingOf(text), parts: text === '' ? 0 : partCount(text) };
}

function read(template: string): [TemplatePart[], ''] | [null, string] {
  try {
    return [parseTemplate(template), ''];
  } catch (error) {
    if (error instanceof TemplateError) return [null, error.message];
    throw error;
  }
}

function emptyOrLong(template: string): string[] {
  if (template.trim() === '') return ['it is empty: allowed: a text, or none of your own to have ours'];
  const { length } = template;
  return length > longestWording ? [`it has ${length} characters: allowed: ${longestWording}`] : [];
}

/** Letters that no phone could show are dropped from texts: better said here than missed there. */
function lettersLost(template: string): string[] {
  const lost = [...template].filter((letter) => letter.trim() !== '' && transliterate(letter) === '');
  if (lost.length === 0) return [];
  return [
    `${[...new Set(lost)].slice(0, 5).join(' ')}: a text message cannot hold this; allowed: plain letters`,
  ];
}

function wrongNames(parts: readonly TemplatePart[], { allowed, needed, hasGroups }: WordingSpec): string[] {
  const [names, optional] = [namesIn(parts), optionalNames(parts)];
  const list = allowed.map((name) => `{${name}}`).join(' ');
  const problems = names
    .filter((name) => !allowed.includes(name))
    .map((name) => `{${name}} is not known here; allowed: ${list}`);
  if (!hasGroups && parts.some(({ kind }) => kind === 'group'))
    problems.push('[brackets] are not known here; allowed: plain words and what is filled in');
  for (const name of needed) {
    if (!names.includes(name)) problems.push(`{${name}} is missing: ${whyNeeded(name)}`);
    else if (optional.has(name)) problems.push(`{${name}} stands in [brackets]: it may never be left out`);
  }
  return problems;
}

function whyNeeded(name: string): string {
  if (name === 'action') return 'what to do first must always be said';
  if (name === 'answer') return 'how to answer, with the code, must always be said';
  return 'it must always be said';
}

function preview(parts: readonly TemplatePart[], { values, giveUp }: WordingExample): WordingPreview {
  const fitted = fitTemplate(parts, values, giveUp);
  return { ...fitted, before: lengthOf(fitted.whole), after: lengthOf(fitted.text) };
}

/** All that may go has gone, and still there is no room for what must be said. */
function tooLong({ text }: WordingPreview): string {
  const start = `"${text.slice(0, 40)}..."`;
  return `it is too long: ${start} does not fit in ${smsLimits.gsm.alone} characters; say less, or put [brackets] round what may be left out`;
}
