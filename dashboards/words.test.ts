import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inlineWords, isWordsFile } from '../tests/helpers/inlineWords.ts';

const folder = fileURLToPath(new URL('.', import.meta.url));
const codeOf = (name: string) => readFileSync(`${folder}${name}`, 'utf8');
const components = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (name) =>
    /\.tsx?$/.test(name) &&
    !/\.test\.tsx?$/.test(name) &&
    !/^(dist\/|vite\.config\.ts$)/.test(name) &&
    // A service worker cannot share a file with the screens; it keeps its few words itself.
    name !== 'offline/serviceWorker.ts',
);

/** Strings that look like words and that no person sees or hears, by why not. */
const notWords = {
  styles: [', minmax(0, 1fr))', 'px,', 'px system-ui, sans-serif'],
  classes: ['tile wants wants-', 'seen', 'wall wire', 'wall boards'],
  selectors: ['.question button', '.question button, .found-method', '.line-list > li:last-child input'],
  'names of errors': ['Refusal', 'ReplayRefused', 'PhotoRefused'],
  'ends of names of parameters': ['DelayMinutes'],
  'why something is fetched again': ['h, judged', 'from'],
} as const;

describe('words of the screens', () => {
  const sources = components.map((name) => ({ name, code: codeOf(name) }));

  it('stand in words files alone', () => {
    const allowed: readonly string[] = Object.values(notWords).flat();
    const found = sources
      .filter(({ name, code }) => !isWordsFile(name, code))
      .flatMap(({ name, code }) => inlineWords(name, code).map((word) => ({ name, ...word })))
      .filter(({ text }) => !allowed.includes(text))
      .map(({ name, line, text }) => `dashboards/${name}:${line} "${text}"`);
    expect(found).toEqual([]);
  });

  it('stand there with nothing that runs beside them, so that who translates need not read programs', () => {
    const files = sources.filter(({ name }) => /(^|\/)words\.ts$/.test(name));
    expect(files.length).toBeGreaterThan(10);
    expect(files.filter(({ name, code }) => !isWordsFile(name, code)).map(({ name }) => name)).toEqual([]);
  });
});

describe('a word left in a component is found', () => {
  const found = (code: string) => inlineWords('example.tsx', code).map(({ line, text }) => `${line} ${text}`);

  it.each([
    ['between tags', '<p>\n  Turn it {days} days after.\n</p>', ['2 Turn it', '2 days after.']],
    [
      'in an attribute people see',
      '<Field label="Why" hint={isLong ? "short" : text.hint} />',
      ['1 Why', '1 short'],
    ],
    ['in one people hear', '<svg aria-label={count + " piles"} />', ['1 piles']],
    ['chosen between tags', '<p>{isOver ? "over" : text.on}{isNew && "new"}</p>', ['1 over', '1 new']],
    ['as a bare unit', '<p>{litres} l</p>', ['1 l']],
    ['glued to a value', 'const shown = hours + " h"', ['1 h']],
    ['in a list of choices', 'const choices = [["F", "Fahrenheit"], ["C", text.celsius]]', ['1 Fahrenheit']],
    ['as the label of a line', 'const line = { label: "core" }', ['1 core']],
    ['in an error that is shown', 'throw new PhotoRefused("Choose a photo.")', ['1 Choose a photo.']],
    ['in a template', `const shown = \`a \${age} old\``, ['1 a', '1 old']],
    ['further down', 'const one = 1;\n\nconst said = "no reading yet";', ['3 no reading yet']],
  ])('%s', (_where, code, expected) => {
    expect(found(code)).toEqual(expected);
  });

  it.each([
    ['a name that is compared', '<p>{kind === "watered" && <Watered />}</p>'],
    ['an argument', '<p>{mayAct("keeper") && text.end}</p>'],
    ['a symbol of the short list', '<p>{celsius} C</p>'],
    ['a class', '<p class={isOn ? "is on" : "off"}>{text.on}</p>'],
    ['a drawing', '<path d={"M0 " + y + " H" + width} />'],
    ['a sign without letters', '<p>{from} - {to}, {percent} %</p>'],
    ['a key', '<p>{text["as yet"]}</p>'],
  ])('%s is none', (_what, code) => {
    expect(found(code)).toEqual([]);
  });

  it('does not take a file for a words file by its name alone', () => {
    expect(isWordsFile('app/pile/words.ts', "import { text } from './other.ts';")).toBe(false);
    expect(isWordsFile('app/pile/words.ts', "import type { Stage } from './stage.ts';")).toBe(true);
    expect(isWordsFile('app/pile/Head.tsx', '')).toBe(false);
  });
});
