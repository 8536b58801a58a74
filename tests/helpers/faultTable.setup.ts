/** Runs beside every suite: one in tests/faults whose tests ran and told the fault table nothing fails. */
import { afterAll, afterEach, expect } from 'vitest';
import { rowsNoted } from './faultTable.ts';

let ran = 0;
afterEach(() => {
  ran++;
});
afterAll(() => {
  const { testPath = '' } = expect.getState();
  if (!testPath.includes('/tests/faults/') || ran === 0 || rowsNoted() > 0) return;
  throw new Error(`${testPath} adds no row to the fault table: end a test with noteFault (tests/helpers)`);
});
