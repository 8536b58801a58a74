/** Whether a text is a JSON Pointer (RFC 6901): empty, or levels that each start with "/". */
export function isJsonPointer(text: string): boolean {
  return /^(?:\/(?:[^~/]|~[01])*)*$/.test(text);
}

/** The value a JSON Pointer leads to, or undefined when there is none. Inherited properties are never followed. */
export function valueAtPointer(document: unknown, pointer: string): unknown {
  let value = document;
  for (const level of pointer.split('/').slice(1)) {
    const key = level.replaceAll('~1', '/').replaceAll('~0', '~');
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    if (Array.isArray(value) && !/^(?:0|[1-9][0-9]*)$/.test(key)) return undefined;
    value = (value as Record<string, unknown>)[key];
  }
  return value;
}
