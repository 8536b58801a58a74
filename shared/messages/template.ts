/** What a template is made of: fixed words, something to fill in, or a group of both that may be left out. */
export type TemplatePart =
  | { readonly kind: 'words'; readonly words: string }
  | { readonly kind: 'value'; readonly name: string }
  | { readonly kind: 'group'; readonly parts: readonly TemplatePart[] };

/** A template that cannot be read; its message says where and what is allowed. */
export class TemplateError extends Error {
  override readonly name = 'TemplateError';
}

/**
 * Reads a template: `{name}` is filled in, what stands in [brackets] is left out when there is nothing to fill in or no
 * room for it.
 * @throws TemplateError naming what is wrong
 */
export function parseTemplate(template: string): TemplatePart[] {
  const parts: TemplatePart[] = [];
  let rest = template;
  while (rest !== '') {
    const open = rest.indexOf('[');
    const before = open === -1 ? rest : rest.slice(0, open);
    parts.push(...plainParts(before));
    if (open === -1) break;
    const close = rest.indexOf(']', open);
    if (close === -1) throw new TemplateError(`"${rest.slice(open, open + 20)}": allowed: [ with its ]`);
    parts.push({ kind: 'group', parts: groupParts(rest.slice(open + 1, close)) });
    rest = rest.slice(close + 1);
  }
  return parts;
}

function groupParts(inside: string): TemplatePart[] {
  if (inside.includes('['))
    throw new TemplateError(`"[${inside}]": allowed: brackets beside, not in each other`);
  const parts = plainParts(inside);
  if (!parts.some(({ kind }) => kind === 'value'))
    throw new TemplateError(`"[${inside}]": allowed: brackets around something to fill in, such as {place}`);
  return parts;
}

function plainParts(text: string): TemplatePart[] {
  if (text.includes(']')) throw new TemplateError(`"${text.trim()}": allowed: ] after its [`);
  return text.split(/(\{\w+\})/).flatMap((piece): TemplatePart[] => {
    if (/^\{\w+\}$/.test(piece)) return [{ kind: 'value', name: piece.slice(1, -1) }];
    if (/[{}]/.test(piece))
      throw new TemplateError(`"${piece.trim()}": allowed: { and } around one name, such as {name}`);
    return piece === '' ? [] : [{ kind: 'words', words: piece }];
  });
}

/** Names a template fills in, in order, each once. */
export function namesIn(parts: readonly TemplatePart[]): string[] {
  const names = parts.flatMap((part) =>
    part.kind === 'value' ? [part.name] : part.kind === 'group' ? namesIn(part.parts) : [],
  );
  return [...new Set(names)];
}

/** Names that stand in a group and nowhere else: what they stand for can be left out. */
export function optionalNames(parts: readonly TemplatePart[]): Set<string> {
  const bare = new Set(namesIn(parts.filter(({ kind }) => kind !== 'group')));
  return new Set(namesIn(parts.filter(({ kind }) => kind === 'group')).filter((name) => !bare.has(name)));
}

/** The text with its values; a group goes when one of its values is missing or empty. */
export function renderTemplate(
  parts: readonly TemplatePart[],
  values: Readonly<Record<string, string | undefined>>,
): string {
  const say = (part: TemplatePart): string => {
    if (part.kind === 'words') return part.words;
    if (part.kind === 'value') return values[part.name] ?? '';
    return namesIn(part.parts).some((name) => !values[name]) ? '' : part.parts.map(say).join('');
  };
  return parts
    .map(say)
    .join('')
    .replaceAll(/ {2,}/g, ' ')
    .replaceAll(/ +([.,:;!?])/g, '$1')
    .trim();
}
