import { appendFileSync } from 'node:fs';
import { relative } from 'node:path';
import { expect } from 'vitest';

const root = new URL('../..', import.meta.url).pathname;
let noted = 0;

/** What was broken, what should come of it, and what this run saw. */
export interface FaultRow {
  readonly fault: string;
  readonly expected: string;
  /** With the numbers of this run. */
  readonly seen: string;
}

/**
 * Adds a row to the fault table that `npm test` prints. Called last in a test, when everything expected was checked: a
 * row stands for a fault that was really made and came out as it should.
 */
export function noteFault(row: FaultRow): void {
  noted++;
  const file = process.env.FAULT_ROWS_FILE;
  if (file === undefined) return;
  const suite = relative(root, expect.getState().testPath ?? '');
  appendFileSync(file, `${JSON.stringify({ suite, ...row })}\n`);
}

/** Rows noted by the suite that runs now. */
export const rowsNoted = (): number => noted;
