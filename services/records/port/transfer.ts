/** A row as JSON: column names as in the program, times in epoch milliseconds, yes and no as 1 and 0, bytes in base64. */
export type OpenRow = Readonly<Record<string, unknown>>;

/** Tables of the records that may leave the house, in an order in which they can be written again. */
export interface RecordsTransfer {
  readonly tables: readonly string[];
  /** What stays behind and why, in words for people. */
  readonly leftOut: readonly string[];
  /** Steps of the schema the database has. */
  steps(): Promise<string[]>;
  /** No yard and nobody in it. */
  isEmpty(): Promise<boolean>;
  /** Every row of every table as they stood at one moment, page by page. */
  readAll(onPage: (table: string, rows: readonly OpenRow[]) => Promise<void>): Promise<void>;
  /**
   * Writes rows of every table in one transaction, all or nothing; returns how many of each.
   * @throws RecordsError on `row` when a row does not fit.
   */
  writeAll(pages: (table: string) => AsyncIterable<readonly OpenRow[]>): Promise<ReadonlyMap<string, number>>;
  close(): Promise<void>;
}
