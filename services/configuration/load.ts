import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { ConfigurationError } from './configurationError.ts';
import { environmentFields } from './environment.ts';
import { type Configuration, configurationSchema } from './schema.ts';

export { ConfigurationError } from './configurationError.ts';

type Tree = { [key: string]: unknown };

export interface ConfigurationSources {
  /** YAML or JSON file; null for none. */
  readonly file: string | null;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** `['http.port', '8080']` pairs from the command line. */
  readonly flags: readonly (readonly [string, string])[];
}

/**
 * Reads the configuration: file, then environment, then flags, the later one winning field by field.
 * @throws ConfigurationError naming every wrong field, its value and what is allowed.
 */
export function loadConfiguration(sources: ConfigurationSources): Configuration {
  const tree: Tree = sources.file === null ? {} : readFile(sources.file);
  for (const { path, text, origin } of environmentFields(sources.environment))
    setField(tree, path, text, origin);
  for (const [path, value] of sources.flags) setField(tree, path.split('.'), value, `flag --${path}`);
  const result = configurationSchema.safeParse(tree);
  if (!result.success) throw new ConfigurationError(explain(result.error, tree));
  return result.data;
}

function readFile(file: string): Tree {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    throw new ConfigurationError(`configuration file ${file} cannot be read`);
  }
  try {
    const parsed: unknown = parse(text) ?? {};
    if (typeof parsed !== 'object' || Array.isArray(parsed)) throw new Error('it holds no fields');
    return parsed as Tree;
  } catch (cause) {
    throw new ConfigurationError(
      `configuration file ${file} is not YAML or JSON: ${(cause as Error).message}`,
    );
  }
}

/** Sets one field from text, following the schema so that `8080` becomes a number where a number is wanted. */
function setField(tree: Tree, path: readonly string[], text: string, origin: string): void {
  let schema: z.ZodType = configurationSchema;
  let branch = tree;
  const names: string[] = [];
  for (const [index, part] of path.entries()) {
    const shape = objectShape(schema);
    const name = shape && Object.keys(shape).find((key) => key.toLowerCase() === part.toLowerCase());
    if (!shape || !name) {
      const allowed = shape
        ? `allowed here: ${Object.keys(shape).join(', ')}`
        : `${names.join('.')} has no fields`;
      throw new ConfigurationError(
        `${origin}: there is no field "${[...names, part].join('.')}"; ${allowed}`,
      );
    }
    names.push(name);
    schema = shape[name] as z.ZodType;
    if (index === path.length - 1) branch[name] = valueFromText(text, schema);
    else branch = branchAt(branch, name);
  }
}

function branchAt(tree: Tree, name: string): Tree {
  const existing = tree[name];
  if (typeof existing === 'object' && existing !== null) return existing as Tree;
  const made: Tree = {};
  tree[name] = made;
  return made;
}

function valueFromText(text: string, schema: z.ZodType): unknown {
  if (schema.safeParse(text).success) return text;
  try {
    return parse(text);
  } catch {
    return text;
  }
}

/** The fields of an object schema behind its defaults and nullables. */
function objectShape(schema: z.ZodType): Record<string, unknown> | null {
  let inner: unknown = schema;
  while (
    inner instanceof z.ZodDefault ||
    inner instanceof z.ZodPrefault ||
    inner instanceof z.ZodNullable ||
    inner instanceof z.ZodOptional
  ) {
    inner = inner.unwrap();
  }
  return inner instanceof z.ZodObject ? inner.shape : null;
}

function explain(error: z.ZodError, tree: Tree): string {
  const lines = error.issues.map((issue) => {
    const field = issue.path.join('.') || 'the configuration';
    if (issue.code === 'unrecognized_keys') {
      return `${field}: there is no field ${issue.keys.map((key) => `"${key}"`).join(', ')}; allowed here: ${allowedKeys(issue.path)}`;
    }
    return `${field} = ${shown(valueAt(tree, issue.path), issue.path)}: ${issue.message}`;
  });
  return lines.join('\n');
}

function allowedKeys(path: readonly PropertyKey[]): string {
  let schema: z.ZodType = configurationSchema;
  for (const part of path) schema = (objectShape(schema)?.[String(part)] ?? z.never()) as z.ZodType;
  return Object.keys(objectShape(schema) ?? {}).join(', ') || 'none';
}

function valueAt(tree: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, part) => (value as Tree | undefined)?.[String(part)], tree);
}

/** Fields that are never quoted; an address may hold a user and a password by mistake. */
const secret =
  /password|secret|token|postgresurl|headers|influx\.url|sms\.\w*url|heartbeaturl|template|\bpin$/i;

function shown(value: unknown, path: readonly PropertyKey[]): string {
  if (secret.test(path.join('.'))) return '(hidden)';
  const hideInside = (key: string, inner: unknown) => (secret.test(key) ? '(hidden)' : inner);
  return JSON.stringify(value, hideInside) ?? 'nothing';
}
