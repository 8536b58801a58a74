import { appendFileSync, existsSync } from 'node:fs';
import { describe, it } from 'vitest';

interface SuiteOptions {
  readonly retry?: number;
  readonly timeout?: number;
}

/**
 * A suite that needs something of the machine. Where that is missing the suite is skipped and the reason printed; with
 * `REQUIRE_ALL=1` in the environment, as in the full run, a missing thing is a failure instead.
 */
export function describeIf(available: boolean, reason: string, options: SuiteOptions = {}) {
  return (name: string, suite: () => void): void => {
    if (available) describe(name, options, suite);
    else if (process.env.REQUIRE_ALL === '1') failing(name, reason);
    else {
      noteSkip(name, reason);
      describe.skip(`${name} (skipped: ${reason})`, suite);
    }
  };
}

/**
 * A suite in a real browser. Where the machine is shared, a browser now and then gets no turn for half a minute: a
 * walk by keys over a full screen takes a minute there, and in the full run a failed test has two more tries, and vitest
 * prints that it took them.
 */
export function describeInBrowser(available: boolean, reason: string) {
  return describeIf(available, reason, { retry: process.env.CI === undefined ? 0 : 2, timeout: 180_000 });
}

/** Printed here, and handed to `npm test` for its summary. */
export function noteSkip(name: string, reason: string): void {
  console.warn(`SKIPPED: ${name}: ${reason}`);
  const file = process.env.SKIPPED_SUITES_FILE;
  if (file !== undefined) appendFileSync(file, `${name}: ${reason}\n`);
}

function failing(name: string, reason: string): void {
  describe(name, () => {
    it('has what it needs', () => {
      throw new Error(`required here (REQUIRE_ALL=1), but missing: ${reason}`);
    });
  });
}

/** First of some paths that exists, for programs that distributions put in different folders; null when none does. */
export function firstExisting(paths: readonly string[]): string | null {
  return paths.find((path) => existsSync(path)) ?? null;
}
