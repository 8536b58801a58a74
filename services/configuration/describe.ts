import { z } from 'zod';
import { configurationSchema } from './schema.ts';
import { serviceNames, serviceTexts } from './services.ts';

/** Every field of the configuration with its default and what it means, one line each, for `--help`. */
export function describeFields(): string {
  return linesOf(configurationSchema, []).join('\n');
}

/** What a process can be told to run, one line each, for `--help`. */
export function describeServices(): string {
  const lines = serviceNames.map((name) => `  ${name.padEnd(8)}${serviceTexts[name]}`);
  return [
    'Services, for --only (with more than one process, records.postgresUrl and series.postgresUrl must be set):',
    ...lines,
  ].join('\n');
}

function linesOf(schema: z.ZodType, path: readonly string[]): string[] {
  const { inner, fallback } = unwrap(schema);
  if (!(inner instanceof z.ZodObject))
    return [`  --${path.join('.')}${shownDefault(fallback)}\n      ${descriptionOf(schema)}`];
  const own =
    path.length > 0 && descriptionOf(schema) !== ''
      ? [`  --${path.join('.')}${shownDefault(fallback)}\n      ${descriptionOf(schema)}`]
      : [];
  return [
    ...own,
    ...Object.entries(inner.shape).flatMap(([name, field]) => linesOf(field as z.ZodType, [...path, name])),
  ];
}

interface Unwrapped {
  readonly inner: z.ZodType;
  /** Undefined where the field has no default of its own. */
  readonly fallback: unknown;
}

function unwrap(schema: z.ZodType): Unwrapped {
  let inner: z.ZodType = schema;
  let fallback: unknown;
  while (
    inner instanceof z.ZodDefault ||
    inner instanceof z.ZodPrefault ||
    inner instanceof z.ZodNullable ||
    inner instanceof z.ZodOptional
  ) {
    if (inner instanceof z.ZodDefault) fallback ??= inner.def.defaultValue;
    inner = inner.unwrap() as z.ZodType;
  }
  return { inner, fallback };
}

function shownDefault(fallback: unknown): string {
  return fallback === undefined || (typeof fallback === 'object' && fallback !== null)
    ? ''
    : `  (default ${fallback === null ? 'none' : JSON.stringify(fallback)})`;
}

/** A description may stand on the field or on what it wraps. */
function descriptionOf(schema: z.ZodType): string {
  if (schema.description) return schema.description;
  const wraps =
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodPrefault ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodOptional;
  return wraps ? descriptionOf(schema.unwrap() as z.ZodType) : '';
}
