import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

interface Import {
  readonly from: string;
  readonly to: string;
}

function sourcesIn(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|tsx)$/.test(name) && !/\.test\.tsx?$/.test(name) && !name.startsWith('dist'))
    .map((name) => join(folder, name));
}

/** Import specifiers of a file: the quoted word after `from`, `import` or `import(` at a statement, comments left out. */
function importsOf(file: string): Import[] {
  const code = withoutComments(readFileSync(join(root, file), 'utf8'));
  const statements =
    /^\s*(?:import|export)\s[^'"`;=]*?\bfrom\s*['"]([^'"]+)['"]|^\s*import\s*['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]/gm;
  const specifiers = [...code.matchAll(statements)].map((match) => (match[1] ?? match[2] ?? match[3])!);
  return specifiers.map((to) => ({
    from: file,
    to: to.startsWith('.') ? normalize(join(dirname(file), to)) : to,
  }));
}

const withoutComments = (code: string) => code.replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');

const importsUnder = (folder: string) => sourcesIn(folder).flatMap(importsOf);
const shown = (imports: readonly Import[]) => imports.map(({ from, to }) => `${from} imports ${to}`);

/** Folders of services/ that are rooms of their own; files directly in services/ and those in start/ put them together. */
const room = (path: string) => /^services\/(?!start\/)([^/]+)\//.exec(path)?.[1] ?? null;

describe('the direction of imports', () => {
  test('shared imports nothing of ours outside shared, and nothing of the machine', () => {
    const imports = importsUnder('shared');
    expect(imports.length).toBeGreaterThan(50);
    const allowed = ['zod', 'cborg', 'ml-matrix'];
    const wrong = imports.filter(
      ({ to }) =>
        !to.startsWith('shared/') && !allowed.some((name) => to === name || to.startsWith(`${name}/`)),
    );
    expect(shown(wrong)).toEqual([]);
  });

  test('shared reads no clock and rolls no dice', () => {
    const wrong = sourcesIn('shared').filter((file) => {
      const code = withoutComments(readFileSync(join(root, file), 'utf8'));
      return /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bperformance\.now\(|\bprocess\./.test(code);
    });
    expect(wrong).toEqual([]);
  });

  test('a service knows another one only through its port', () => {
    const wrong = importsUnder('services').filter(({ from, to }) => {
      const [here, there] = [room(from), room(to)];
      if (here === null || here === 'configuration' || there === null || here === there) return false;
      // What puts a service together for its own tests stands where main.ts stands.
      if (from.includes('/testing/')) return false;
      return to !== `services/${there}/port.ts`;
    });
    expect(shown(wrong)).toEqual([]);
  });

  test('services and screens do not import each other', () => {
    const wrong = [
      ...importsUnder('services').filter(({ to }) => to.startsWith('dashboards/')),
      ...importsUnder('dashboards').filter(({ to }) => to.startsWith('services/') || to.startsWith('node:')),
    ].filter(({ from }) => !from.endsWith('vite.config.ts'));
    expect(shown(wrong)).toEqual([]);
  });
});

test('the top level holds exactly what the house plan names', () => {
  const fixed = [
    'DEVELOPERS.md',
    'LICENSE',
    'README.md',
    'dashboards',
    'docker-compose.yml',
    'firmware-notes',
    'package-lock.json',
  ];
  const expected = [...fixed, 'package.json', 'services', 'shared', 'tests', 'tsconfig.json'];
  const made = ['node_modules', 'data', 'coverage', 'test-results'];
  const found = readdirSync(root).filter((name) => !name.startsWith('.') && !made.includes(name));
  expect(found.sort()).toEqual(expected.sort());
});
