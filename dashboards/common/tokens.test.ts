import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrastRatio, leastContrast } from '../../shared/units/contrast.ts';

const sheet = readFileSync(new URL('tokens.css', import.meta.url), 'utf8');

/** The colours a rule of the sheet sets, by name. */
function colours(selector: string): Record<string, string> {
  const start = sheet.indexOf(`${selector} {`);
  if (start < 0) throw new Error(`tokens.css has no ${selector}`);
  const rule = sheet.slice(start, sheet.indexOf('}', start));
  return Object.fromEntries(
    [...rule.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]),
  );
}

const grounds = ['ground', 'card', 'sunk'];
const flags = ['highest', 'high', 'medium', 'low'];
/** Every pair of text and ground the screens use. */
const texts = [
  ...grounds.flatMap((ground) => [...['ink', 'soft-ink', 'focus'], ...flags].map((ink) => [ink, ground])),
  ...flags.map((flag) => ['flag-ink', flag]),
  ['action-ink', 'action'],
  ['lost-ink', 'lost'],
  ['lost-ink', 'lost-stripe'],
];
/** Lines and shapes one must see to understand: outlines, poles, the focus, tile borders that call. */
const shapes = grounds.flatMap((ground) =>
  ['strong-line', 'action', 'focus', ...flags].map((line) => [line, ground]),
);

describe.each([':root', ':root.night'])('the colours of %s', (selector) => {
  const known = colours(selector);
  const contrast = ([one, other]: string[]) => contrastRatio(known[one!]!, known[other!]!);

  it('defines every token', () => {
    expect(Object.keys(known).sort()).toEqual(Object.keys(colours(':root')).sort());
    expect(Object.keys(known).length).toBeGreaterThan(17);
  });

  it.each(texts.filter(([ink, ground]) => !(ground === 'sunk' && flags.includes(ink!))))(
    'text %s on %s has 4.5:1',
    (...pair) => {
      expect(contrast(pair)).toBeGreaterThanOrEqual(leastContrast.text);
    },
  );

  it.each(shapes)('shape %s on %s has 3:1', (...pair) => {
    expect(contrast(pair)).toBeGreaterThanOrEqual(leastContrast.graphics);
  });
});
