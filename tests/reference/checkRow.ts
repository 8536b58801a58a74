/**
 * One row of a "check values" table in the reference pack, turned into a test.
 *
 * Row files (`*.rows.ts` in this folder) export `rows: CheckRow[]`; `reference.test.ts` runs every one, and
 * `coverage.test.ts` fails when a row of the reference pack has no test here.
 */
export interface CheckRow {
  /** Identifier in the reference pack, e.g. `MIX-03`, `C-50`. */
  readonly id: string;
  /** Where the expected value comes from, as the pack names it. */
  readonly source: string;
  /** The pack's own status word for the row (confirmed by lookup, from memory, computed, ours...). */
  readonly status: string;
  /** Throws (through `expect`) when our code does not reproduce the row. */
  readonly check: () => void | Promise<void>;
}
