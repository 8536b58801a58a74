import { existsSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { describeIf } from '../tests/helpers/requirement.ts';

const built = new URL('dist/', import.meta.url);
const pageFile = new URL('wall.html', built);

/** Scripts a page loads, and what those load at once in turn. */
function scriptsOf(html: string): string[] {
  const found = new Set([...html.matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!));
  for (const path of found)
    for (const [, name] of readFileSync(new URL(`.${path}`, built), 'utf8').matchAll(
      /from\s*["`']\.\/([^"`']+\.js)["`']/g,
    ))
      found.add(`/assets/${name}`);
  return [...found];
}

describeIf(existsSync(pageFile), 'the screens are not built')('what the wall downloads', () => {
  const scripts = () =>
    scriptsOf(readFileSync(pageFile, 'utf8')).map((path) => readFileSync(new URL(`.${path}`, built)));

  it('is under 120 kB of compressed script, with room to spare for a small board', () => {
    const bytes = scripts().reduce((sum, script) => sum + gzipSync(script).length, 0);
    expect(bytes).toBeGreaterThan(5_000);
    expect(bytes).toBeLessThan(120_000);
    // What it is today; a large step up should be a decision.
    expect(bytes).toBeLessThan(30_000);
  });

  it('holds neither the chart nor the validator, which only the app and the service need', () => {
    for (const script of scripts()) expect(script.toString()).not.toMatch(/uplot|ZodError|invalid_type/);
  });
});
