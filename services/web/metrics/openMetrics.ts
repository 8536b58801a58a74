/** One number of a family; labels tell it from the others. */
export interface MetricSample {
  readonly labels?: Readonly<Record<string, string>>;
  readonly value: number;
}

/** Numbers of one kind under one name, as a monitor reads them. */
export interface MetricFamily {
  /** Ends with the unit, where there is one; without the `_total` of counters and the `_info` of infos. */
  readonly name: string;
  /** `counter` only grows until the program ends; `info` holds facts in its labels and has the value 1. */
  readonly type: 'gauge' | 'counter' | 'info';
  /** Base unit: seconds, bytes, ratio...; null where things are counted. */
  readonly unit: string | null;
  readonly help: string;
  readonly samples: readonly MetricSample[];
}

export const openMetricsType = 'application/openmetrics-text; version=1.0.0; charset=utf-8';

const nameAllowed = /^[a-zA-Z_:][a-zA-Z0-9_:]*$/;
const labelAllowed = /^[a-zA-Z_][a-zA-Z0-9_]*$/;
const suffixOf = { gauge: '', counter: '_total', info: '_info' } as const;

/**
 * Families as OpenMetrics text 1.0.0: TYPE, UNIT, HELP, then the numbers, and the closing `# EOF`, by which a monitor
 * tells a whole page from one that was cut short (specification: prometheus/OpenMetrics; reference W-31, C-120).
 * @throws Error naming the family when it could not be read back: our own mistake, found by tests.
 */
export function formatOpenMetrics(families: readonly MetricFamily[]): string {
  const names = new Set<string>();
  for (const { name } of families) {
    if (names.has(name)) throw new Error(`metric ${name}: given twice`);
    names.add(name);
  }
  return `${families.map(familyText).join('')}# EOF\n`;
}

function familyText(family: MetricFamily): string {
  checkFamily(family);
  const { name, type, unit, help } = family;
  const head = [`# TYPE ${name} ${type}`];
  if (unit !== null) head.push(`# UNIT ${name} ${unit}`);
  head.push(`# HELP ${name} ${escaped(help)}`);
  const lines = family.samples.map(
    ({ labels = {}, value }) => `${name}${suffixOf[type]}${labelText(labels)} ${numberText(value)}`,
  );
  return `${[...head, ...lines].join('\n')}\n`;
}

function checkFamily({ name, type, unit, samples }: MetricFamily): void {
  const refuse = (why: string): never => {
    throw new Error(`metric ${name}: ${why}`);
  };
  if (!nameAllowed.test(name)) refuse('allowed in a name: letters, digits, "_" and ":", not a digit first');
  if (/_(total|info|created|bucket|count|sum)$/.test(name)) refuse('the ending is added by its type');
  if (unit !== null && !name.endsWith(`_${unit}`)) refuse(`must end with its unit "_${unit}"`);
  const seen = new Set<string>();
  for (const { labels = {}, value } of samples) {
    const text = labelText(labels);
    if (seen.has(text)) refuse(`labels ${text || '(none)'} are given twice`);
    seen.add(text);
    for (const label of Object.keys(labels))
      if (!labelAllowed.test(label)) refuse(`label "${label}" is not allowed`);
    if (type === 'counter' && !(value >= 0)) refuse(`a counter is 0 or more, not ${value}`);
    if (type === 'info' && value !== 1) refuse('an info has the value 1');
  }
}

/** In the order of their names, so that the same labels are the same text. */
function labelText(labels: Readonly<Record<string, string>>): string {
  const pairs = Object.entries(labels).sort(([one], [other]) => (one < other ? -1 : 1));
  if (pairs.length === 0) return '';
  return `{${pairs.map(([label, value]) => `${label}="${escaped(value)}"`).join(',')}}`;
}

/** The format asks for the same three escapes in help texts and label values. */
function escaped(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('\n', '\\n');
}

function numberText(value: number): string {
  if (Number.isNaN(value)) return 'NaN';
  if (!Number.isFinite(value)) return value > 0 ? '+Inf' : '-Inf';
  return String(value);
}
