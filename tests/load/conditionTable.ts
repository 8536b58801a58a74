/**
 * Prints the table of conditions for DEVELOPERS.md: `node tests/load/conditionTable.ts`. It is made from the conditions
 * themselves, so it cannot say anything else than what is judged.
 */
import type { ZodType } from 'zod';
import { priorities } from '../../shared/alarms/alarm.ts';
import { allConditions } from '../../shared/rules/allConditions.ts';
import { type PileMethod, pileMethods } from '../../shared/yard/method.ts';

type Listed = (typeof allConditions)[number];
type Values = Readonly<Record<string, number | boolean>>;

const shortNames: Readonly<Record<PileMethod, string>> = {
  'static-cage': 'cage',
  'hot-bin': 'hot bin',
  'turned-windrow': 'windrow',
  'aerated-static-pile': 'aerated pile',
  'worm-bed': 'worm bed',
  'curing-heap': 'curing heap',
  'leaf-heap': 'leaf heap',
};

function unitOf(parameters: ZodType, field: string): string {
  const shape = (parameters as unknown as { shape: Record<string, { meta(): { unit?: string } }> }).shape;
  const unit = shape[field]?.meta().unit ?? '';
  return unit === 'fraction' ? '%' : unit;
}

function valueWords(condition: Listed, field: string, value: number | boolean): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const unit = unitOf(condition.parameters as ZodType, field);
  const shown = unit === '%' ? Math.round(value * 1000) / 10 : value;
  return unit === '' ? String(shown) : `${shown} ${unit}`;
}

/** `limitCelsius` becomes `limit`: its unit stands with the value. */
function fieldWords(field: string): string {
  const plain = field.replace(/(Celsius|Fraction|Minutes|Hours|Days)(PerHour|PerDay)?$/, '');
  return (plain === '' ? field : plain).replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** One parameter's defaults: a single value, or one for each group of methods that share it. */
function defaultsOf(condition: Listed, field: string, methods: readonly PileMethod[]): string {
  const byValue = Map.groupBy(methods, (method) =>
    valueWords(condition, field, (condition.defaults(method) as unknown as Values)[field]!),
  );
  if (byValue.size === 1) return `${fieldWords(field)} ${[...byValue.keys()][0]}`;
  const groups = [...byValue].map(
    ([value, group]) => `${value} (${group.map((one) => shortNames[one]).join(', ')})`,
  );
  return `${fieldWords(field)} ${groups.join(', ')}`;
}

const leftOut = [
  'enabled',
  'minimumMinutesBetweenTexts',
  'reAlarmMinutes',
  'onDelayMinutes',
  'offDelayMinutes',
];

function row(condition: Listed): string {
  const judged = pileMethods.filter((method) => condition.defaults(method).enabled);
  const fields = Object.keys(condition.defaults('static-cage')).filter((field) => !leftOut.includes(field));
  const values = fields.map((field) => defaultsOf(condition, field, judged));
  const delays = ['onDelayMinutes', 'offDelayMinutes'].map((field) => defaultsOf(condition, field, judged));
  const where =
    condition.subject !== 'pile' || judged.length === pileMethods.length
      ? ''
      : `; only ${judged.map((method) => shortNames[method]).join(', ')}`;
  const held = condition.latching ? '; held until a person resets it' : '';
  const cells = [
    `${condition.name} (\`${condition.id}\`, ${condition.subject})`,
    `${[...values, ...delays].join('; ')}${where}${held}`,
    condition.source,
  ];
  return `| ${cells.map((cell) => cell.replaceAll('|', '/')).join(' | ')} |`;
}

/** The whole table as Markdown. */
export function conditionTable(): string {
  const head = ['| condition | default per method | source |', '|---|---|---|'];
  return [...head, ...allConditions.map(row)].join('\n');
}

if (import.meta.main) {
  console.log(conditionTable());
  console.log(
    `\nPriorities, most pressing first: ${priorities.join(', ')}; shared/rules/priorityOf.ts decides them.`,
  );
}
