/** What a monitor learns from a page: sample name with its labels, as written, and the number. */
export type ReadMetrics = ReadonlyMap<string, number>;

const descriptor = /^# (TYPE|UNIT|HELP) ([a-zA-Z_:][a-zA-Z0-9_:]*) (.+)$/;
const sample = /^([a-zA-Z_:][a-zA-Z0-9_:]*)(\{(?:[a-zA-Z_]\w*="(?:[^"\\\n]|\\[\\"n])*",?)*\})? (\S+)$/;
const order = ['TYPE', 'UNIT', 'HELP'];

/**
 * Reads OpenMetrics text 1.0.0 as strictly as its specification is written, for the metric types we send: a stranger's
 * eye on what our own page says, sharing no code with it.
 * @throws Error naming the line and what is wrong with it.
 */
export function readOpenMetrics(text: string): ReadMetrics {
  if (!text.endsWith('# EOF\n'))
    throw new Error('the page does not end with "# EOF": it may have been cut short');
  const numbers = new Map<string, number>();
  const families = new Set<string>();
  let family = { name: '', type: '', unit: '', seen: 0 };
  for (const line of text.slice(0, -'# EOF\n'.length).split('\n').slice(0, -1)) {
    const refuse = (why: string): never => {
      throw new Error(`line "${line}": ${why}`);
    };
    const told = descriptor.exec(line);
    if (told) {
      const [, kind, name, value] = told as unknown as [string, string, string, string];
      if (name !== family.name) {
        if (families.has(name)) refuse('its family was interrupted');
        families.add(name);
        family = { name, type: '', unit: '', seen: 0 };
      }
      if (order.indexOf(kind) < family.seen) refuse('TYPE, UNIT, HELP stand in this order, each once');
      family.seen = order.indexOf(kind) + 1;
      if (kind === 'TYPE') family.type = value;
      if (kind === 'UNIT' && !name.endsWith(`_${value}`)) refuse('the name does not end with its unit');
      continue;
    }
    const [, name = '', labels = '', value = ''] =
      sample.exec(line) ?? refuse('neither a descriptor nor a sample');
    const suffix = { counter: '_total', info: '_info', gauge: '' }[family.type] ?? refuse('unknown type');
    if (name !== `${family.name}${suffix}`) refuse(`a ${family.type} of ${family.name} has another name`);
    if (numbers.has(name + labels)) refuse('given twice');
    const number = value === '+Inf' ? Number.POSITIVE_INFINITY : Number(value);
    if (Number.isNaN(number) && value !== 'NaN') refuse(`"${value}" is no number`);
    numbers.set(name + labels, number);
  }
  return numbers;
}
