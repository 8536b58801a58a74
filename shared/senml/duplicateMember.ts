const quote = 0x22;
const backslash = 0x5c;
const colon = 0x3a;

/**
 * Whether any object in a JSON text repeats a member name. `JSON.parse` silently keeps the last of two, so the parsed
 * value has fewer members than the text has name separators: counting both is enough, and cheap enough for every pack.
 */
export function hasDuplicateMember(text: string, parsed: unknown): boolean {
  return separatorCount(text) !== memberCount(parsed);
}

function separatorCount(text: string): number {
  let count = 0;
  let inString = false;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (inString && code === backslash) index++;
    else if (code === quote) inString = !inString;
    else if (code === colon && !inString) count++;
  }
  return count;
}

function memberCount(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const isArray = Array.isArray(value);
  const children: unknown[] = isArray ? value : Object.values(value);
  let count = isArray ? 0 : children.length;
  for (const child of children) count += memberCount(child);
  return count;
}

/** Which member name is repeated, and in which record; only for the error message, so it may be slow. */
export function duplicateMember(text: string): { name: string; recordIndex: number } | null {
  const open: (Set<string> | null)[] = [];
  let recordIndex = 0;
  for (const [token, string, separator] of text.matchAll(/("(?:[^"\\]|\\.)*")(\s*:)?|[{}[\],]/g)) {
    if (token === '{') open.push(new Set());
    else if (token === '[') open.push(null);
    else if (token === '}' || token === ']') open.pop();
    else if (token === ',' && open.length === 1) recordIndex++;
    else if (string !== undefined && separator !== undefined) {
      const name: string = JSON.parse(string);
      const names = open.at(-1);
      if (names?.has(name)) return { name, recordIndex };
      names?.add(name);
    }
  }
  return null;
}
