/** Codes of a broken unique rule: PostgreSQL's SQLSTATE, SQLite's extended codes for unique and primary key. */
const uniqueCodes: readonly unknown[] = ['23505', 2067, 1555];
/** A row refers to one that does not exist. */
const referenceCodes: readonly unknown[] = ['23503', 787];
/** PostgreSQL ended this transaction because it and another one waited for each other. */
const deadlockCode = '40P01';

export const isUniqueBroken = (error: unknown): boolean => uniqueCodes.includes(codeOf(error));
export const isReferenceBroken = (error: unknown): boolean => referenceCodes.includes(codeOf(error));
export const isDeadlock = (error: unknown): boolean => codeOf(error) === deadlockCode;

/** Whether a broken unique rule is the one named: SQLite says the columns, PostgreSQL the index. */
export function breaksRule(
  error: unknown,
  rule: { readonly index: string; readonly columns: string },
): boolean {
  if (!isUniqueBroken(error) || !(error instanceof Error)) return false;
  return ('constraint' in error && error.constraint === rule.index) || error.message.endsWith(rule.columns);
}

function codeOf(error: unknown): unknown {
  if (!(error instanceof Error)) return undefined;
  if ('errcode' in error) return error.errcode;
  return 'code' in error ? error.code : undefined;
}
