/** What a command of the machine room was asked: its own words, and those that set fields of the configuration. */
export interface CommandWords {
  readonly values: ReadonlyMap<string, string>;
  readonly switches: ReadonlySet<string>;
  readonly rest: readonly string[];
}

/**
 * Takes a command's own `--name value` and `--switch` out of its words.
 * @throws Error naming a value that is missing.
 */
export function takeWords(
  words: readonly string[],
  own: { readonly values: readonly string[]; readonly switches: readonly string[] },
): CommandWords {
  const values = new Map<string, string>();
  const switches = new Set<string>();
  const rest: string[] = [];
  const left = [...words];
  while (left.length > 0) {
    const word = left.shift()!;
    const [, name = '', inline] = /^--([\w-]+)(?:=(.*))?$/s.exec(word) ?? [];
    if (own.switches.includes(name)) switches.add(name);
    else if (own.values.includes(name)) {
      const value = inline ?? left.shift();
      if (value === undefined || value.startsWith('--')) throw new Error(`--${name} needs a value`);
      values.set(name, value);
    } else rest.push(word);
  }
  return { values, switches, rest };
}

/** A value the command cannot do without. */
export function needed({ values }: CommandWords, name: string, usage: string): string {
  const value = values.get(name);
  if (value === undefined) throw new Error(`--${name} is missing.\n${usage}`);
  return value;
}
