import { defineConfig } from 'vitest/config';

/**
 * Unit tests stand beside the code (`*.test.ts`); suites that need a process, a server or a browser stand in
 * `tests/`. Files run in two workers because the smallest machine we promise to run on has two cores.
 */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['{shared,services,dashboards,firmware-notes,tests}/**/*.test.{ts,tsx}'],
    setupFiles: ['tests/helpers/faultTable.setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
